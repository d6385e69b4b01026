import type { Result } from '../problems/result.ts';
import { makePhoto, type MadePhoto } from './make-photo.ts';

export interface PhotoRequest {
  readonly id: number;
  readonly file: Blob;
  readonly name: string;
}

export interface PhotoAnswer {
  readonly id: number;
  readonly result: Result<MadePhoto>;
}

addEventListener('message', ({ data: { id, file, name } }: MessageEvent<PhotoRequest>) => {
  void makePhoto(file, name).then((result) => {
    const answer: PhotoAnswer = { id, result };
    postMessage(answer);
  });
});
