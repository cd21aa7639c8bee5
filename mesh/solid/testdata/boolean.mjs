// The parts of boolean_test.go once more, as booleans of finely tessellated
// primitives. Prints volume in mm³, surface in mm² and genus of each as JSON.
// The folder of the mesh boolean's package is given in MASTWRIGHT_NODE_MODULES.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = join(process.env.MASTWRIGHT_NODE_MODULES, 'manifold-3d', 'manifold.js');
const wasm = await (await import(pathToFileURL(folder))).default();
wasm.setup();
const { Manifold, CrossSection } = wasm;

const segments = 256; // a circle; its area is 1e-4 too small
const around = [...Array(segments).keys()].map((i) => (2 * Math.PI * (i + 0.5)) / segments);

// ring is a level section as points in space: a rectangle with round corners.
const ring = (x, y, radius, z) =>
  around.map((a) => {
    const c = Math.cos(a), s = Math.sin(a);
    return [Math.sign(c) * (x / 2 - radius) + radius * c, Math.sign(s) * (y / 2 - radius) + radius * s, z];
  });
const sharp = (x, y, z) => [[x / 2, y / 2, z], [-x / 2, y / 2, z], [-x / 2, -y / 2, z], [x / 2, -y / 2, z]];
const section = (x, y, radius, z) => (radius > 0 ? ring(x, y, radius, z) : sharp(x, y, z));

const taper = (a, b, height) => Manifold.hull([...section(...a, 0), ...section(...b, height)]);
const prism = (x, y, height, radius) => taper([x, y, radius], [x, y, radius], height);
const box = (x, y, z) => prism(x, y, z, 0);
const cylinder = (radius, height, top = radius) => Manifold.cylinder(height, radius, top, segments);
const slot = (length, width, height) => prism(length, width, height, width / 2);
const hexagon = (flats, height) =>
  Manifold.extrude([[...Array(6).keys()].map((i) => {
    const a = (i * Math.PI) / 3, r = flats / Math.sqrt(3);
    return [r * Math.cos(a), r * Math.sin(a)];
  })], height);
const counterbore = (hole, depth, head, headDepth) =>
  cylinder(hole / 2, depth).translate(0, 0, -depth).add(cylinder(head / 2, headDepth).translate(0, 0, -headDepth));
const four = (m, x, y, z) => [[x, y], [-x, y], [x, -y], [-x, -y]].map(([u, v]) => m.translate(u, v, z));
const difference = (from, cutters) => from.subtract(Manifold.union(cutters));

// root is the foot of material that a ball of radius b leaves round a stem on
// the plane z = 0, cut into slabs. In the level direction a the stem's corner
// has the radius r about (x + gx z, y + gy z); the ball's centre is where it
// touches both: r + b k outside that, 1/k being the slant of the wall.
const root = (x, gx, y, gy, r, b) => {
  const slabs = 48;
  const levels = [...Array(slabs + 1).keys()].map((i) => b * (1 - Math.cos((i / slabs) * Math.PI / 2)));
  const level = (z) =>
    around.map((a) => {
      const c = Math.cos(a), s = Math.sin(a);
      const m = gx * Math.abs(c) + gy * Math.abs(s), k = 1 / Math.hypot(1, m);
      const touch = b * (1 + m * k);
      const out = r + b * k - Math.sqrt(Math.max(0, b * b - (z - b) * (z - b)));
      return [Math.sign(c) * (x + gx * touch) + out * c, Math.sign(s) * (y + gy * touch) + out * s, z];
    });
  return Manifold.union(levels.slice(1).map((z, i) => Manifold.hull([...level(levels[i]), ...level(z)])));
};

// turned is the same for a round stem: a profile turned about z.
const turned = (r, slope, b) => {
  const k = 1 / Math.hypot(1, slope), touch = b * (1 + slope * k);
  const centre = r + slope * touch + b * k;
  const end = Math.acos((b - touch) / b), n = 256;
  const arc = [...Array(n + 1).keys()].map((i) => [centre - b * Math.sin((i / n) * end), b - b * Math.cos((i / n) * end)]);
  return CrossSection.ofPolygons([[[0, 0], ...arc, [0, touch]]]).revolve(segments);
};

const reference = () => {
  const stem = taper([18, 18, 2], [12, 12, 2], 120).translate(0, 0, 4);
  const body = Manifold.union([
    prism(44, 44, 4, 4), stem, prism(32, 32, 7, 3).translate(0, 0, 124),
    root(7, -0.025, 7, -0.025, 2, 4).translate(0, 0, 4),
  ]);
  return difference(body, [
    taper([13.45, 13.45, 0.4], [7.15, 7.15, 0.4], 126).translate(0, 0, -1),
    prism(28.8, 28.8, 10, 1.4).translate(0, 0, 127),
    box(8, 8, 10).translate(0, 0, 123.9),
    box(6, 20, 14).translate(0, -10, 13),
    ...four(counterbore(3.2, 5, 6.5, 2), 15.25, 15.25, 4),
    ...four(cylinder(1.1, 10), 12, 12, 120),
  ]);
};

const wedgeFoot = () => {
  const slope = -1.5 / 60;
  const body = Manifold.union([
    cylinder(24, 9), cylinder(7, 60, 5.5).translate(0, 0, 9), cylinder(12, 3).translate(0, 0, 69),
    turned(7, slope, 3).translate(0, 0, 9), turned(5.5, -slope, 3).mirror([0, 0, 1]).translate(0, 0, 69),
  ]);
  const groove = CrossSection.circle(2, segments).translate(8, 0).revolve(segments);
  // The plane of the underside looks to (-sin 0.1, 0, cos 0.1).
  const below = box(100, 100, 50).translate(0, 0, -50).rotate(0, (-0.1 * 180) / Math.PI, 0).translate(0, 0, 2.5);
  return difference(body, [
    below, cylinder(3.6, 90).translate(0, 0, -5), groove.translate(0, 0, 40),
    slot(9, 5, 20).rotate(0, 90, 0).translate(0, 0, 18),
    ...[0, 1, 2].map((i) => slot(9, 3.2, 20).translate(17, 0, -2).rotate(0, 0, 120 * i + (0.2 * 180) / Math.PI)),
  ]);
};

const clamp = () => {
  const body = prism(26, 20, 25, 3).add(prism(14, 10, 25, 1).translate(17, 0, 0));
  const screw = (m) => m.rotate(90, 0, 0).translate(19, 0, 12.5);
  return difference(body, [
    cylinder(6.1, 40).translate(0, 0, -5), box(30, 1.5, 40).translate(15, 0, -5), box(1.2, 2, 40).translate(-6.3, 0, -5),
    screw(cylinder(1.6, 40)).translate(0, 20, 0),
    screw(hexagon(5.5, 3)).translate(0, 5.01, 0),
    screw(cylinder(3.1, 3)).translate(0, -2.5, 0),
  ]);
};

const figures = (m) => ({ volume: m.volume(), area: m.surfaceArea(), genus: m.genus() });
console.log(JSON.stringify({ reference: figures(reference()), 'wedge foot': figures(wedgeFoot()), clamp: figures(clamp()) }));
