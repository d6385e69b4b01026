/** A number in a step, with the unit in which it is to be read. */
export interface NamedNumber {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

/** One line of the arithmetic behind a verdict. */
export interface ArithmeticStep {
  readonly label: string;
  /** How `result` follows from `numbers`, in words and signs a person can repeat by hand. */
  readonly formula: string;
  readonly numbers: readonly NamedNumber[];
  readonly result: NamedNumber | { readonly text: string };
}

/** Short form for a number with its name and unit. */
export const named = (name: string, value: number, unit: string): NamedNumber => ({ name, value, unit });

/** A step in one line of text, numbers to `digits` significant figures: for the command line and for reading aloud. */
export function stepText({ label, formula, numbers, result }: ArithmeticStep, digits = 6): string {
  const shown = ({ name, value, unit }: NamedNumber) =>
    `${name} ${Number(value.toPrecision(digits))} ${unit}`.trim();
  const end = 'text' in result ? result.text : shown(result);
  const middle = numbers.length === 0 ? '' : ` [${numbers.map(shown).join('; ')}]`;
  return `${label}: ${formula}${middle} = ${end}`;
}
