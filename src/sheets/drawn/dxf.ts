import {
  DxfWriter,
  LWPolylineFlags,
  point2d,
  point3d,
  TextHorizontalAlignment,
  TextVerticalAlignment,
  Units,
} from '@tarikjabiri/dxf';
import { CAPITAL, type Drawing, LINE_KINDS, LINE_STYLES, type LineKind } from './drawing.js';
import { dxfText } from './safe-text.js';

/** The layer of a kind of line. @example layerOf('glue line') // 'GLUE_LINE' */
const layerOf = (kind: LineKind | 'text' | 'key'): string => kind.toUpperCase().replaceAll(' ', '_');

/** White or black, as the program shows it: layers tell the kinds apart, colours do not. */
const INK = 7;

/**
 * A drawing as DXF for a cutting machine: millimetres, one layer for each kind of line and one for text, every closed
 * cut one closed polyline. Shading is left out.
 */
export function toDxf({ strokes, texts }: Drawing): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  for (const kind of LINE_KINDS) {
    const { dash } = LINE_STYLES[kind];
    const lineType = dash.length === 0 ? 'Continuous' : layerOf(kind);
    if (dash.length > 0)
      dxf.addLType(
        lineType,
        kind,
        dash.map((long, i) => (i % 2 === 0 ? long : -long)),
      );
    dxf.addLayer(layerOf(kind), INK, lineType);
  }
  dxf.addLayer(layerOf('text'), INK, 'Continuous');
  // Samples of the lines lie on a layer of their own: a machine must not crease them into the waste.
  dxf.addLayer(layerOf('key'), INK, 'Continuous');
  for (const { kind, points, closed, sample } of strokes)
    dxf.addLWPolyline(
      points.map(([x, y]) => ({ point: point2d(x, y) })),
      {
        layerName: layerOf(sample ? 'key' : kind),
        ...(sample && LINE_STYLES[kind].dash.length > 0 && { lineType: layerOf(kind) }),
        flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None,
      },
    );
  for (const { at, text, size, anchor, turn } of texts) {
    const point = point3d(at[0], at[1], 0);
    // DXF gives the height of a capital.
    dxf.addText(point, CAPITAL * size, dxfText(text), {
      layerName: layerOf('text'),
      rotation: turn,
      ...(anchor === 'middle' && {
        horizontalAlignment: TextHorizontalAlignment.Center,
        verticalAlignment: TextVerticalAlignment.Middle,
        secondAlignmentPoint: point,
      }),
    });
  }
  return dxf.stringify();
}
