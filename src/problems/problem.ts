import { CATALOGUE, type ProblemCode } from './catalogue.ts';

/** An expected failure as a value: a code, and the facts that its text needs. Thrown by nobody. */
export interface Problem {
  readonly code: ProblemCode;
  readonly context: Readonly<Record<string, string | number>>;
}

/** What a person reads: what happened and what to do. */
export interface ProblemText {
  readonly message: string;
  readonly remedy: string;
}

/** Makes a problem. `context` fills the {names} in the catalogue's text. */
export const problem = (code: ProblemCode, context: Problem['context'] = {}): Problem => ({ code, context });

/** The catalogue's text with the context filled in. A name without a value stays as it stands. */
export function describeProblem({ code, context }: Problem): ProblemText {
  const fill = (text: string) =>
    text.replace(/\{(\w+)\}/g, (whole, name: string) => String(context[name] ?? whole));
  const { message, remedy } = CATALOGUE[code];
  return { message: fill(message), remedy: fill(remedy) };
}
