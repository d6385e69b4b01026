/**
 * The little of papaparse that Meniscus uses. The published types pull in Node's and the DOM's, which would let
 * timers and windows into the pure core; so the file is imported by its path, which those types do not cover.
 */
declare module 'papaparse/papaparse.js' {
  interface PapaResults {
    readonly data: string[][];
    readonly errors: readonly { readonly code: string }[];
  }
  interface PapaConfig {
    readonly delimiter: string;
    readonly newline: '\n';
    readonly fastMode?: boolean;
    readonly chunkSize: number;
    readonly chunk: (results: PapaResults) => void;
  }
  const Papa: { readonly parse: (text: string, config: PapaConfig) => void };
  export { Papa as default };
}
