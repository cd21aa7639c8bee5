// Builds three parts as mesh booleans of finely tessellated primitives and prints volume and surface of each as JSON. The boolean is an
// npm package, manifold-3d, in the folder of modules that the first argument names.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const { default: Module } = await import(pathToFileURL(join(process.argv[2], 'manifold-3d', 'manifold.js')).href);
const wasm = await Module();
wasm.setup();
const { Manifold, CrossSection } = wasm;
const segments = 1024;

const square = (x, y, r) => CrossSection.square([x - 2 * r, y - 2 * r], true).offset(r, 'Round', 2, segments);
const prism = (x, y, z, r) => square(x, y, r).extrude(z);
const taper = (x, y, r, z, share) => square(x, y, r).extrude(z, 0, 0, [share, share]);
const cylinder = (r, z) => Manifold.cylinder(z, r, r, segments);
const corners = (d, part) => [[1, 1], [-1, 1], [-1, -1], [1, -1]].map(([x, y]) => part.translate([x * d, y * d, 0]));

const foot = prism(44, 44, 4, 4)
  .subtract(Manifold.union(corners(15.25, cylinder(1.6, 6).translate([0, 0, -1]))))
  .subtract(Manifold.union(corners(15.25, cylinder(3.25, 4).translate([0, 0, 2]))));

const mast = taper(18, 18, 2, 120, 2 / 3)
  .subtract(taper(13.2, 13.2, 1, 122, 2 / 3).translate([0, 0, -1]))
  .subtract(Manifold.cube([20, 6, 14], false).translate([0, -3, 13]));

const tray = prism(32, 32, 7, 3)
  .subtract(prism(28.8, 28.8, 8, 1.4).translate([0, 0, 3]))
  .subtract(Manifold.cube([8, 8, 10], true).translate([0, 0, 2]))
  .subtract(Manifold.union(corners(12, cylinder(1.1, 8).translate([0, 0, -1]))));

const figures = {};
for (const [name, part] of Object.entries({ foot, mast, tray })) {
  figures[name] = { volume: part.volume(), area: part.surfaceArea(), genus: part.genus() };
}
console.log(JSON.stringify(figures));
