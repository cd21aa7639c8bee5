// Reads the DXF file that is named with a parser from outside this project and
// prints what it sees as JSON: the version, the extents, the layers, and each
// entity with its layer and the area in mm² that it encloses. The folder of the
// parser's package is given in MASTWRIGHT_NODE_MODULES.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const parser = createRequire(join(process.env.MASTWRIGHT_NODE_MODULES, 'x.js'))('dxf-parser');
const dxf = new (parser.DxfParser ?? parser.default ?? parser)().parseSync(readFileSync(process.argv[2], 'utf8'));

// The polygon by its corners, and a segment of a circle for every bulge.
const area = ({ type, vertices, radius }) => {
  if (type === 'CIRCLE') return Math.PI * radius * radius;
  if (!vertices) return 0;
  return vertices.reduce((sum, a, i) => {
    const b = vertices[(i + 1) % vertices.length];
    const angle = 4 * Math.atan(a.bulge ?? 0);
    const r = angle === 0 ? 0 : Math.hypot(b.x - a.x, b.y - a.y) / 2 / Math.sin(angle / 2);
    return sum + (a.x * b.y - b.x * a.y) / 2 + (r * r * (angle - Math.sin(angle))) / 2;
  }, 0);
};

console.log(JSON.stringify({
  Version: dxf.header.$ACADVER,
  Min: [dxf.header.$EXTMIN.x, dxf.header.$EXTMIN.y],
  Max: [dxf.header.$EXTMAX.x, dxf.header.$EXTMAX.y],
  Layers: Object.keys(dxf.tables.layer.layers),
  Colours: [...new Set(Object.values(dxf.tables.layer.layers).map((l) => l.colorIndex))],
  Entities: dxf.entities.map((e) => ({ Type: e.type, Layer: e.layer, Closed: !!e.shape, Corners: e.vertices?.length ?? 0, Area: area(e), Text: e.text ?? '' })),
}));
