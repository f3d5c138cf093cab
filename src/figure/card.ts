import * as z from 'zod';
import { checked, faultAt } from './text/check.js';
import type { Path } from './text/input-error.js';
import type { FigureSource } from './text/source.js';

/** The grain of a piece runs along the line on which it stands (of the page: the gutter), across it, or anyhow. */
export type Grain = 'along' | 'across' | 'any';

/** The card of one piece. */
export interface CardStock {
  /** mm */
  readonly thickness: number;
  /** g/m²; not known where only the thickness was given. */
  readonly grammage?: number;
  readonly grain: Grain;
}

/** The card of the figure, and of pieces that differ. */
export interface Card extends CardStock {
  readonly pieces: Readonly<Record<string, CardStock>>;
  /** The card of a piece, by its name. */
  of(piece: string): CardStock;
}

/** Common card for pop-ups, 250 g/m² and 1.2 cm³/g: 0.3 mm. (Common practice, no source.) */
const GRAMMAGE = 250;
const BULK = 1.2;

const stock = {
  thickness: z.number().min(0.02).max(10).optional(),
  grammage: z.number().min(20).max(3000).optional(),
  bulk: z.number().min(0.4).max(5).optional(),
  grain: z.enum(['along', 'across', 'any']).optional(),
};
const card = z
  .strictObject({ ...stock, pieces: z.record(z.string(), z.strictObject(stock)).prefault({}) })
  .prefault({});

type Stock = z.output<z.ZodObject<typeof stock>>;

/**
 * Reads `card`. Thickness in mm is given, or follows from grammage (g/m²) and bulk (cm³/g): bulk is volume by mass, so
 * g/m² × cm³/g = cm³/m² = µm, and thickness = grammage × bulk / 1000 (ISO 534).
 */
export function readCard(source: FigureSource): Card {
  const { pieces, ...own } = checked(source, ['card'], card);
  const whole: CardStock = {
    thickness: thicknessOf(source, ['card'], own) ?? (GRAMMAGE * BULK) / 1000,
    grammage: own.grammage ?? (own.thickness === undefined ? GRAMMAGE : undefined),
    grain: own.grain ?? 'any',
  };
  const byName = new Map(
    Object.entries(pieces).map(([name, piece]): [string, CardStock] => [
      name,
      {
        thickness: thicknessOf(source, ['card', 'pieces', name], piece, own.bulk) ?? whole.thickness,
        grammage: piece.grammage ?? (piece.thickness === undefined ? whole.grammage : undefined),
        grain: piece.grain ?? whole.grain,
      },
    ]),
  );
  return { ...whole, pieces: Object.fromEntries(byName), of: (piece) => byName.get(piece) ?? whole };
}

function thicknessOf(source: FigureSource, path: Path, stock: Stock, usualBulk = BULK): number | undefined {
  const { thickness, grammage, bulk } = stock;
  if (thickness !== undefined && (grammage !== undefined || bulk !== undefined))
    throw faultAt(source, path, 'give thickness, or grammage and bulk', 'thickness beside grammage or bulk');
  if (thickness !== undefined) return thickness;
  if (grammage === undefined && bulk === undefined) return undefined;
  return ((grammage ?? GRAMMAGE) * (bulk ?? usualBulk)) / 1000;
}
