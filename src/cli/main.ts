import { describeProblem, type Problem } from '../problems/problem.ts';
import { parseArguments, USAGE, type Command } from './arguments.ts';
import { crankReport, crankText } from './crank-report.ts';
import { readInput } from './read-input.ts';

const USED = 0;
const UNUSABLE = 2;

/** The command line. Gives the exit code: 0 with a result, 2 for input that cannot be used. */
export async function main(argv: readonly string[]): Promise<number> {
  // A reader that has seen enough (`| head`) is no failure of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) =>
    process.exit(error.code === 'EPIPE' ? USED : 1),
  );
  const command = parseArguments(argv);
  if ('mistake' in command) {
    process.stderr.write(`meniscus: ${command.mistake}. Run 'meniscus help' for the commands.\n`);
    return UNUSABLE;
  }
  if (command.name === 'help') return print(USAGE);
  if (command.name === 'demo-sheet') {
    const { DEMONSTRATION_SHEET } = await import('../limits/demonstration-sheet.ts');
    return print(json(DEMONSTRATION_SHEET));
  }
  return run(command);
}

async function run(command: Exclude<Command, { name: 'help' | 'demo-sheet' }>): Promise<number> {
  const input = await readInput(command);
  if (!input.ok) return refuse(input.problem);
  if (command.name === 'cranks') {
    const report = crankReport(command.file, input.value);
    return print(command.json ? json(report) : crankText(report));
  }
  const { gradeReport, gradeText } = await import('./grade-report.ts');
  const graded = gradeReport(command, input.value);
  if (!graded.ok) return refuse(graded.problem);
  return print(command.json ? json(graded.value) : gradeText(graded.value));
}

const json = (value: object): string => `${JSON.stringify(value, null, 2)}\n`;

function print(text: string): number {
  process.stdout.write(text);
  return USED;
}

/** One line: what is wrong, then what to do. */
function refuse(each: Problem): number {
  const { message, remedy } = describeProblem(each);
  process.stderr.write(`meniscus: ${message} ${remedy}\n`.replace(/\s*\n(?=.)/g, ' '));
  return UNUSABLE;
}
