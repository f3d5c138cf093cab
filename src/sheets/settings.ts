import type { Grain } from '../figure/card.js';
import { BLEED, type PanelArt } from './art/place-art.js';
import { type Costs, DEFAULT_COSTS } from './costs.js';
import { type Paper, paperNamed, SheetError } from './layout/paper.js';

/** The card that a piece is cut from. */
export interface Card {
  /** g/m²; without it no weight is given. */
  readonly grammage?: number;
  /** mm. */
  readonly thickness: number;
  /** How the grain of a piece runs to the line on which it stands. Without it, or with 'any', pieces may be turned. */
  readonly grain?: Grain;
}

/** What a printer needs beyond a maker. */
export interface PrinterSettings {
  /** How far artwork runs past the cut, mm. */
  readonly bleed: number;
  /** Names of the spot colours. */
  readonly spots: { readonly cut: string; readonly crease: string; readonly glue: string };
}

export interface SheetSettings {
  /** Name of the figure, as a person would write it. */
  readonly figure: string;
  /** Which candidate of which study, in words; empty for none. */
  readonly candidate: string;
  /** What the dummy fails at, in words; null where it works, or nobody asked. */
  readonly failure: string | null;
  readonly paper: Paper;
  /** Room left at the sheet's edges, and between pieces, mm. */
  readonly margin: number;
  readonly spacing: number;
  /** How many of each piece. */
  readonly copies: number;
  readonly cardOf: (piece: string) => Card;
  /** Which face of a piece is printed: that which a reader at the foot of the open spread sees (front), or the other. */
  readonly faceOf: (piece: string) => 'front' | 'back';
  /** Tabs on the page go through slits and are glued behind. */
  readonly tabsBehindPage: boolean;
  /** Die-lines and artwork templates, too. */
  readonly printer: PrinterSettings | null;
  /** What is printed on panels. */
  readonly art: readonly PanelArt[];
  /** One SVG for each panel, to draw its art on. */
  readonly artTemplates: boolean;
  /** Minutes by kind of work, and prices. */
  readonly costs: Costs;
  /** The book: two leaves or one sheet with a fold, as fits (auto), or as asked; none: a template to prick through. */
  readonly base: Base;
}

/** How the base of a figure is made. */
export const BASES = ['auto', 'none', 'sheet', 'leaves'] as const;
export type Base = (typeof BASES)[number];

/** What a caller gives; all but the figure's name has a default. */
export type SheetOptions = Partial<Omit<SheetSettings, 'figure' | 'paper' | 'printer'>> & {
  readonly figure: string;
  /** A4, A3, Letter …, or WIDTHxHEIGHT in mm. */
  readonly paper?: string;
  readonly printer?: { readonly bleed?: number; readonly spots?: Partial<PrinterSettings['spots']> };
};

/** Fills in the defaults and refuses what cannot be. */
export function settingsOf(options: SheetOptions, thicknessOf: (piece: string) => number): SheetSettings {
  const { printer, paper, ...rest } = options;
  const settings: SheetSettings = {
    candidate: '',
    failure: null,
    margin: 10,
    spacing: 5,
    copies: 1,
    cardOf: (piece) => ({ thickness: thicknessOf(piece) }),
    faceOf: () => 'front',
    tabsBehindPage: false,
    art: [],
    artTemplates: false,
    costs: DEFAULT_COSTS,
    ...rest,
    paper: paperNamed(String(paper ?? 'A4')),
    base: rest.base ?? 'auto',
    printer:
      printer === undefined
        ? null
        : {
            bleed: printer.bleed ?? 3,
            spots: { cut: 'Cut', crease: 'Crease', glue: 'Glue', ...printer.spots },
          },
  };
  const within = (what: string, value: number, least: number, most: number) => {
    if (!(typeof value === 'number' && value >= least && value <= most))
      throw new SheetError(`${what} of ${value} cannot be: from ${least} to ${most}`);
  };
  within('a margin', settings.margin, 0, 100);
  within('a spacing', settings.spacing, 0, 100);
  within('a number of copies', settings.copies, 1, 1000);
  if (!Number.isInteger(settings.copies))
    throw new SheetError(`${settings.copies} copies: give a whole number`);
  // Bleeds of neighbours may touch but not overlap.
  if (settings.printer === null)
    return settings.art.length === 0
      ? settings
      : { ...settings, spacing: Math.max(settings.spacing, 2 * BLEED) };
  within('a bleed', settings.printer.bleed, 0, 20);
  for (const spot of Object.values(settings.printer.spots)) checkSpotName(spot);
  return { ...settings, spacing: Math.max(settings.spacing, 2 * settings.printer.bleed) };
}

/** Names that PDF gives a meaning of their own (ISO 32000-1, 8.6.6.4), and the process inks. */
const TAKEN = ['all', 'none', 'cyan', 'magenta', 'yellow', 'black'];

/** Refuses a spot colour's name that a PDF could not hold or a printer would misread. */
function checkSpotName(name: string): void {
  if (!/^[A-Za-z][A-Za-z0-9 ._-]{0,39}$/.test(name) || TAKEN.includes(name.toLowerCase()))
    throw new SheetError(
      `'${name.slice(0, 60)}' cannot name a spot colour: up to 40 letters, digits, spaces, dots and hyphens, beginning with a letter, and none of ${TAKEN.join(', ')}`,
    );
}
