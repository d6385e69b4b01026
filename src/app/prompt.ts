import type { DeskView } from './run-desk.ts';

export interface Prompt {
  readonly title: string;
  readonly text: string;
}

/** What to do now, in one line to act on and one that explains. */
export function promptOf({ view, run, playback }: DeskView): Prompt {
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
        : crankPrompt({ view, run });
    case 'read':
      return readPrompt({ view, run });
    case 'verdict':
      return { title: 'Graded', text: 'Open the arithmetic to see every number the verdict stands on.' };
  }
}

function crankPrompt({ view }: Pick<DeskView, 'view' | 'run'>): Prompt {
  const { clock, table, link } = view;
  if (link === 'waiting')
    return { title: 'Waiting for the bridge', text: 'Key on. Nothing has been received yet.' };
  if (table.phase === 'noData')
    return { title: 'Waiting for engine speed', text: 'Key on. The bus is heard, engine speed is not.' };
  if (table.phase === 'running' || table.phase === 'runningDown')
    return { title: 'The engine is running', text: 'Switch it off. A crank counts only from standstill.' };
  if (clock.state === 'cranking')
    return clock.warn === 'now' || clock.warn === 'over'
      ? { title: 'Stop cranking', text: 'The time of this crank is reached.' }
      : { title: 'Keep cranking', text: `Until the clock shows ${clock.targetSeconds.toFixed(0)} s.` };
  if (clock.state === 'resting')
    return {
      title: clock.restLeftSeconds > 0 ? 'Let the starter rest' : 'Crank again',
      text: `Crank ${clock.crankNumber} of ${clock.cranks} comes next, ${clock.targetSeconds.toFixed(1)} s.`,
    };
  return {
    title: 'Turn the starter',
    text: `Crank ${clock.crankNumber} of ${clock.cranks}, ${clock.targetSeconds.toFixed(0)} s.`,
  };
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
      text: `${view.table.cranks.length} cranks found in the log. What was collected?`,
    };
  return {
    title: 'Read the vessel',
    text: 'Eye level with the fuel, bottom of the curve. Then type what it shows.',
  };
}
