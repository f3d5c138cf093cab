import type { FreeableCatch, TrimOffer, TrimOffers } from '../../score/trims/trims.js';
import { counted } from '../../text/phrases.js';
import { decimal, withUnit } from './numbers.js';

/** What could be cut to free a candidate, for a person: each catch with its cuts, then what to write in the file. */
export function trimsInWords({ catches, more, together, after }: TrimOffers): string[] {
  if (catches.length === 0) return ['', 'Trims', '  Nothing catches: there is nothing to trim.'];
  const lines = ['', 'Trims', ...catches.flatMap(catchInWords)];
  if (more > 0)
    lines.push(`  ${counted(more, 'more catch', 'more catches')}, not looked at: free these first`);
  if (together.length === 0) return [...lines, '', 'No cut frees it without breaking something else.'];
  lines.push(
    '',
    after?.works
      ? 'With these it works. Write them into the figure file to keep them:'
      : 'Even with these it does not work, but less is wrong. To keep them, write into the figure file:',
    'trims:',
  );
  for (const { trims } of together)
    for (const { panel, region } of trims) {
      const corners = region.map(([x, y]) => `[${decimal(x, 2)}, ${decimal(y, 2)}]`);
      lines.push(`  - { panel: ${JSON.stringify(panel)}, region: [${corners.join(', ')}] }`);
    }
  return lines;
}

function catchInWords({ between, depth, pageAngle, offers, without }: FreeableCatch): string[] {
  const at = `${withUnit(depth, 'mm')} deep at page angle ${withUnit(pageAngle, 'degrees')}`;
  return [
    `  ${between.join(' and ')}: ${at}`,
    ...offers.map(offerInWords),
    ...without.map(({ panel, why }) => `    not from '${panel}': ${why}`),
  ];
}

function offerInWords({ panel, area, share, strokes }: TrimOffer): string {
  return `    cut ${decimal(area, 1)} mm² (${decimal(share, 1)} % of it) from '${panel}', ${counted(strokes, 'stroke')} of the knife`;
}
