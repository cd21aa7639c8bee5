// Reads the 3MF package in the file that is named, with a loader, an XML parser
// and a mesh library from outside this project, and prints what they see as JSON:
// a copy after another with name, box on the bed in mm, triangles, volume in mm³
// and genus. The folder of their packages is given in MASTWRIGHT_NODE_MODULES.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = process.env.MASTWRIGHT_NODE_MODULES;
const address = (...names) => pathToFileURL(join(folder, ...names)).href;
const { DOMParser } = await import(address('linkedom', 'esm', 'index.js'));
globalThis.DOMParser = DOMParser;
const { Box3 } = await import(address('three', 'build', 'three.module.js'));
const { ThreeMFLoader } = await import(address('three', 'examples', 'jsm', 'loaders', '3MFLoader.js'));
const wasm = await (await import(address('manifold-3d', 'manifold.js'))).default();
wasm.setup();

const bytes = readFileSync(process.argv[2]);
const group = new ThreeMFLoader().parse(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
group.updateMatrixWorld(true);

const items = group.children.map((item) => {
  let found;
  item.traverse((node) => {
    if (node.isMesh) found = node;
  });
  const at = found.geometry.attributes.position;
  const solid = new wasm.Manifold({
    numProp: 3,
    vertProperties: Float32Array.from(at.array),
    triVerts: Uint32Array.from(found.geometry.index ? found.geometry.index.array : [...Array(at.count).keys()]),
  }); // throws where it is not manifold
  const box = new Box3().setFromObject(item);
  return {
    Name: item.name || found.name,
    Min: box.min.toArray(),
    Max: box.max.toArray(),
    Triangles: solid.numTri(),
    Volume: solid.volume(),
    Genus: solid.genus(),
  };
});
console.log(JSON.stringify(items));
