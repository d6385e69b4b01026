import { css, unsafeCSS, type CSSResult } from 'lit';

/**
 * The only place with colours and sizes. Three colour sets share one list of names: light, dark and print. What a colour means
 * is fixed and it never stands alone: each meaning also has a word and a shape (see shape-icon).
 */
export const MEANINGS = ['pass', 'marginal', 'fail', 'unsure', 'invalid', 'cranking', 'stale'] as const;
export type Meaning = (typeof MEANINGS)[number];

/** Grounds that text may stand on. */
export const GROUNDS = ['ground', 'surface', 'sunken'] as const;
/** The three traces of the strip chart. Each has its own dash besides its colour. */
export const SERIES_COLOURS = ['seriesSpeed', 'seriesRail', 'seriesSupply'] as const;

export type ColourName =
  | (typeof GROUNDS)[number]
  | (typeof SERIES_COLOURS)[number]
  | Meaning
  | `${Meaning}Soft`
  | 'ink'
  | 'quiet'
  | 'line'
  | 'mark'
  | 'accent'
  | 'accentStrong'
  | 'onSolid'
  | 'focus'
  | 'fuel'
  | 'fuelEdge'
  | 'glass';

export type ColourSet = Readonly<Record<ColourName, string>>;

/** Daylight: porcelain and ink. */
export const LIGHT: ColourSet = {
  ground: '#e9eeed',
  surface: '#fbfcfb',
  sunken: '#dfe6e5',
  ink: '#0d1b1d',
  quiet: '#415255',
  line: '#b9c6c6',
  mark: '#5b6d70',
  accent: '#005468',
  accentStrong: '#003c4b',
  onSolid: '#ffffff',
  focus: '#1849d6',
  pass: '#0a6139',
  passSoft: '#d6ecdd',
  marginal: '#744b00',
  marginalSoft: '#f7e6bd',
  fail: '#a31c17',
  failSoft: '#f9dcd7',
  unsure: '#5a379c',
  unsureSoft: '#e7dff6',
  invalid: '#48555b',
  invalidSoft: '#e1e6e8',
  cranking: '#005468',
  crankingSoft: '#cfe6ed',
  stale: '#5c5540',
  staleSoft: '#ebe6d6',
  seriesSpeed: '#005468',
  seriesRail: '#97266f',
  seriesSupply: '#4c5c00',
  fuel: '#dfa83f',
  fuelEdge: '#7f5107',
  glass: '#f3f7f7',
};

/** A dark bay: slate, with the meanings lightened. */
export const DARK: ColourSet = {
  ground: '#0b1315',
  surface: '#131f22',
  sunken: '#0a1012',
  ink: '#edf4f2',
  quiet: '#a8babc',
  line: '#2e4146',
  mark: '#86999d',
  accent: '#62c8df',
  accentStrong: '#9be2f2',
  onSolid: '#061013',
  focus: '#ffd24a',
  pass: '#62d59d',
  passSoft: '#103524',
  marginal: '#f2bb4e',
  marginalSoft: '#3b2c0b',
  fail: '#ff9087',
  failSoft: '#461816',
  unsure: '#c6abff',
  unsureSoft: '#2e2349',
  invalid: '#b5c1c6',
  invalidSoft: '#253035',
  cranking: '#62c8df',
  crankingSoft: '#0f3440',
  stale: '#cdc5a8',
  staleSoft: '#302d22',
  seriesSpeed: '#62c8df',
  seriesRail: '#f39bd0',
  seriesSupply: '#c3d264',
  fuel: '#6a4d14',
  fuelEdge: '#ffd588',
  glass: '#17262a',
};

/** Paper: black on white, tints so light that the hatching carries the zones on a grey printer. */
export const PRINT: ColourSet = {
  ...LIGHT,
  ground: '#ffffff',
  surface: '#ffffff',
  sunken: '#f4f5f5',
  ink: '#000000',
  quiet: '#333c3e',
  line: '#9aa5a6',
  passSoft: '#eef7f1',
  marginalSoft: '#fdf6e3',
  failSoft: '#fdf0ee',
  unsureSoft: '#f5f1fb',
  invalidSoft: '#f1f3f4',
  crankingSoft: '#e8f3f6',
  staleSoft: '#f6f4ec',
  glass: '#ffffff',
};

/** Sizes, type and motion; the same in every colour set. rem, so that a person's own text size is obeyed. */
export const SIZES: Readonly<Record<string, string>> = {
  'space-1': '0.25rem',
  'space-2': '0.5rem',
  'space-3': '0.75rem',
  'space-4': '1rem',
  'space-5': '1.5rem',
  'space-6': '2rem',
  'space-7': '3rem',
  'radius-1': '0.1875rem',
  'radius-2': '0.5rem',
  'stroke-1': '1px',
  'stroke-2': '2px',
  'stroke-3': '3px',
  'focus-gap': '2px',
  target: '3.25rem', // 52 px: gloves
  key: '4rem',
  'text-s': '0.9375rem',
  'text-m': '1.0625rem',
  'text-l': '1.375rem',
  'text-xl': '2rem',
  'text-xxl': '3rem',
  // Ten or more millimetres high on a laptop: read from three metres. cqi follows the tile, not the window.
  'text-huge': 'clamp(4.5rem, 28cqi, 9rem)',
  // The same for five, and for six or more figures.
  'text-huge-5': 'clamp(4rem, 22cqi, 9rem)',
  'text-huge-6': 'clamp(3rem, 17cqi, 9rem)',
  'text-beside': 'clamp(1.25rem, 7cqi, 2rem)',
  'text-word': 'clamp(2.75rem, 14cqi, 7rem)',
  'chart-height': 'clamp(16rem, 42vh, 26rem)',
  measure: '46rem',
  'scale-width': '0.875rem',
  'scale-step': '0.5rem',
  'font-text': `-apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', 'Liberation Sans', system-ui, sans-serif`,
  'font-number': `Bahnschrift, 'DIN Alternate', 'Roboto', 'Helvetica Neue', 'Liberation Sans', Arial, sans-serif`,
  // Hexadecimal only reads in columns when letters are as wide as figures.
  'font-hex': `ui-monospace, 'Cascadia Mono', 'Roboto Mono', 'DejaVu Sans Mono', 'Liberation Mono', monospace`,
  'monitor-row': '1.75rem',
  'monitor-row-narrow': '3.25rem',
  'monitor-height': 'clamp(18rem, 60vh, 44rem)',
};

const MOTION = { 'motion-fast': '120ms', 'motion-sweep': '1.6s' };
const STILL = { 'motion-fast': '0s', 'motion-sweep': '0s' };

const kebab = (name: string) => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** The custom property of a colour, e.g. `--m-series-speed`. */
export const colourProperty = (name: ColourName): string => `--m-${kebab(name)}`;

const declarations = (set: Readonly<Record<string, string>>): CSSResult =>
  unsafeCSS(
    Object.entries(set)
      .map(([name, value]) => `--m-${kebab(name)}: ${value};`)
      .join('\n'),
  );

/** Custom properties for the whole document; elements inherit them through their shadow roots. */
export const tokens: CSSResult = css`
  :root {
    color-scheme: light;
    ${declarations(SIZES)}
    ${declarations(MOTION)}
    ${declarations(LIGHT)}
  }
  @media (prefers-color-scheme: dark) {
    :root:not([data-theme='light']) {
      color-scheme: dark;
      ${declarations(DARK)}
    }
  }
  :root[data-theme='dark'] {
    color-scheme: dark;
    ${declarations(DARK)}
  }
  @media (prefers-reduced-motion: reduce) {
    :root {
      ${declarations(STILL)}
    }
  }
  @media print {
    :root,
    :root[data-theme],
    :root:not([data-theme='light']) {
      color-scheme: light;
      ${declarations(PRINT)}
      ${declarations(STILL)}
    }
  }
`;

/** What the document itself needs besides the tokens: ground, ink, type. */
export const documentStyles: CSSResult = css`
  ${tokens}
  html {
    background: var(--m-ground);
    color: var(--m-ink);
    font: var(--m-text-m) / 1.5 var(--m-font-text);
    -webkit-text-size-adjust: 100%;
    text-size-adjust: 100%;
  }
  body {
    margin: 0;
  }
`;

/**
 * Puts the tokens and the document's own styles on a document by a constructed style sheet, which a strict content security
 * policy allows. Call once, from the composition root.
 */
export function adoptDocumentStyles(target: Document): void {
  const sheet = documentStyles.styleSheet;
  if (sheet && !target.adoptedStyleSheets.includes(sheet)) target.adoptedStyleSheets.push(sheet);
}
