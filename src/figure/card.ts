import * as z from 'zod';
import { hubHolds } from '../card/closed-loop.js';
import { CREASE_REST, creaseStiffness } from '../card/crease.js';
import { type StockStiffness, stiffnessOf } from '../card/stock.js';
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
  /** How hard it is to pull and to bend, by its grain: as given, or typical of its grammage. */
  readonly stiffness: StockStiffness;
  /** Stiffness of its creases, N mm/rad for each mm, and the angle to which they open by themselves, radians. */
  readonly crease: { readonly stiffness: number; readonly rest: number };
  /** What a hub in it, or the end of a link, holds before it tears out, N. */
  readonly hubHolds: number;
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
  /** Young's modulus along the grain and across it, GPa. */
  modulus: z.tuple([z.number().min(0.05).max(50), z.number().min(0.05).max(50)]).optional(),
  /** Bending stiffness for a width of 1 mm, along and across: N mm, which is the mN m of ISO 2493 and ISO 5628. */
  bending: z.tuple([z.number().min(0.001).max(1e5), z.number().min(0.001).max(1e5)]).optional(),
  /** Stiffness of a crease, N mm/rad for each mm, and the angle to which it opens by itself, degrees. */
  crease: z.number().min(0).max(100).optional(),
  creaseRest: z.number().min(0).max(180).optional(),
  /** What a hub in it holds before it tears out, N. */
  hubHolds: z.number().min(0.01).max(1e5).optional(),
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
  const whole = stockOf(
    thicknessOf(source, ['card'], own) ?? (GRAMMAGE * BULK) / 1000,
    own.grammage ?? (own.thickness === undefined ? GRAMMAGE : undefined),
    own,
  );
  const byName = new Map(
    Object.entries(pieces).map(([name, piece]): [string, CardStock] => {
      const thickness = thicknessOf(source, ['card', 'pieces', name], piece, own.bulk);
      // Stiffness and strength that were measured on the figure's card are those of a piece only where the piece is cut from it.
      const measured =
        thickness === undefined ? { modulus: own.modulus, bending: own.bending, hubHolds: own.hubHolds } : {};
      return [
        name,
        stockOf(
          thickness ?? whole.thickness,
          piece.grammage ?? (piece.thickness === undefined ? whole.grammage : undefined),
          {
            grain: whole.grain,
            crease: own.crease,
            creaseRest: own.creaseRest,
            ...measured,
            ...given(piece),
          },
        ),
      ];
    }),
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

/** What a piece says of its own; what it leaves out is that of the figure's card. */
const given = ({ grain, modulus, bending, crease, creaseRest, hubHolds }: Stock): Stock => ({
  ...(grain === undefined ? {} : { grain }),
  ...(modulus === undefined ? {} : { modulus }),
  ...(bending === undefined ? {} : { bending }),
  ...(crease === undefined ? {} : { crease }),
  ...(creaseRest === undefined ? {} : { creaseRest }),
  ...(hubHolds === undefined ? {} : { hubHolds }),
});

/** g/m²; where only the thickness was given, that of common card so thick. */
export const grammageOf = ({ grammage, thickness }: { grammage?: number; thickness: number }): number =>
  grammage ?? (1000 * thickness) / BULK;

function stockOf(thickness: number, grammage: number | undefined, stock: Stock): CardStock {
  const { modulus, bending, grain = 'any' } = stock;
  const stiffness = stiffnessOf(thickness, grammageOf({ thickness, grammage }), modulus, bending);
  return {
    thickness,
    ...(grammage === undefined ? {} : { grammage }),
    grain,
    stiffness,
    crease: {
      stiffness: stock.crease ?? creaseStiffness(stiffness.any.bend),
      rest: stock.creaseRest === undefined ? CREASE_REST : (stock.creaseRest * Math.PI) / 180,
    },
    hubHolds: stock.hubHolds ?? hubHolds(stiffness.any.pull),
  };
}
