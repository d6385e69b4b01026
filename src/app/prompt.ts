import type { DeskView } from './run-desk.ts';
import type { RunView } from './run-view.ts';

export interface Prompt {
  readonly title: string;
  readonly text: string;
}

/** What to do now, in one line to act on and one that explains; null while the crank clock itself says it. */
export function promptOf({ view, run, playback }: DeskView): Prompt | null {
  switch (view.stage) {
    case 'prepare':
      return {
        title: 'Read the cautions',
        text: 'Tick each one when it is taken care of. Nothing is listened to before.',
      };
    case 'connect':
      return view.link === 'opening'
        ? { title: 'Opening the source', text: 'The bridge is being set to listen only.' }
        : { title: 'Connect the source', text: 'The cautions are read. Nothing is being received yet.' };
    case 'crank':
      return playback === 'playing'
        ? { title: 'Replaying', text: 'The recording runs through the same measurement as when it was live.' }
        : crankPrompt(view);
    case 'read':
      return readPrompt({ view, run });
    case 'measure':
      return null;
    case 'verdict':
      return { title: 'Graded', text: 'Open the arithmetic to see every number the verdict stands on.' };
  }
}

function crankPrompt({ table, link }: RunView): Prompt | null {
  if (link === 'reopening')
    return {
      title: 'Waiting for the bridge to come back',
      text: 'Check the cable and the bridge. The recording goes on by itself.',
    };
  if (link === 'waiting')
    return { title: 'Waiting for the bridge', text: 'Key on. Nothing has been received yet.' };
  if (table.phase === 'noData')
    return { title: 'Waiting for engine speed', text: 'Key on. The bus is heard, engine speed is not.' };
  if (table.phase === 'running' || table.phase === 'runningDown')
    return { title: 'The engine is running', text: 'Switch it off. A crank counts only from standstill.' };
  return null;
}

function readPrompt({ view, run }: Pick<DeskView, 'view' | 'run'>): Prompt {
  if (view.table.cranks.length === 0)
    return {
      title: 'No crank was found',
      text: 'Check that engine speed is in the data and that it covers the cranking.',
    };
  if (run.source.adapter === 'log-file')
    return {
      title: 'Type the volume',
      text: `${view.table.cranks.length} crank${view.table.cranks.length === 1 ? '' : 's'} found in the log. What was collected?`,
    };
  return {
    title: 'Read the vessel',
    text: 'Eye level with the fuel, bottom of the curve. Then type what it shows.',
  };
}
