// Package solid describes parts as implicit solids with labelled faces and
// turns them into triangle meshes whose edges are exact.
//
// Lengths are in millimetres. Axes are right-handed, z up. A solid is a value
// that is negative inside, zero on its surface and positive outside, and that
// changes by at most 1 mm over 1 mm of way; its magnitude never exceeds the
// distance to the surface. Every face carries a label and the exact equation
// of its surface, so that an edge is where two equations vanish together.
//
// A prism-like solid stands on z = 0 with its middle on the z axis. Move,
// Rotate and Place put it where it belongs.
//
// # How a mesh is made
//
// Dual contouring puts one vertex into every cell that the surface crosses,
// where the planes at the crossings fit best, and thereafter knows nothing of
// the faces: edges wander by a threshold, and a flat face keeps a square of
// triangles for each cell. Here the grid only finds out which faces meet and
// in what order; where they are, their own equations say. Polygonise goes
// through these steps:
//
//  0. Faces that look the same way and lie closer than the mesh may stray, two
//     flats within 0.9 of the tolerance or two round walls about one axis
//     within 0.35, are made one: the later moves to where the earlier is. The
//     tolerance told counts the move. Where the part could not be made to the
//     tolerance, faces several tolerances apart are joined.
//  1. Grid: planes across the axes, closer where a leaf asks for it, or two of
//     them: for a step between flat faces, a wall between bars, the strip where
//     a fillet runs out beside another face, a corner close to a wall. Blocks
//     that the surface cannot reach, and faces that cannot matter in a block,
//     are left out by the value's bound.
//  2. Crossings: the grid edges with one end inside, each with its place and
//     the label of the face there. Bricks look for walls that no plane shows.
//  3. Topology: one vertex a sheet of surface in a cell, by a table of the 256
//     cases that cuts ambiguous cell faces the same way from both sides, so
//     the surface is closed whatever the signs.
//  4. Vertices with several labels go to where those surfaces vanish together,
//     by Gauss-Newton; tangent faces meet in a seam of known equation. Where
//     they meet far outside the cell or not at all, a place counts at which the
//     left-out faces pass by within a share of the tolerance.
//  5. Borders: patches of equal label are bounded by chains from corner to
//     corner. Each chain is sampled once, on its exact curve, as coarsely as
//     the tolerance allows, and both its patches use those points. The grid's
//     own vertices are dropped: nothing has to be simplified afterwards.
//  6. Filling: every patch is laid out in a chart of its face, its border cut
//     into ears and made Delaunay; curved faces get vertices until every edge
//     keeps the tolerance.
//  7. Gate: the mesh is measured against the solid and, rounded to 32 bits,
//     searched for defects of every kind. Where a step failed or a vertex did
//     not settle, closer planes are asked for there and all begins again; where
//     faces ran through one another their chords get shorter first. If no grid
//     will do, one of another spacing and a looser tolerance are tried, and last
//     the cells' own quads.
//
// All of it is done by index in a fixed order, so the same solid gives the
// same bytes on any number of processors.
//
// Sources: T. Ju, F. Losasso, S. Schaefer and J. Warren, "Dual contouring of
// Hermite data", ACM Transactions on Graphics 21 (2002) 339; G. M. Nielson,
// "Dual marching cubes", IEEE Visualization 2004, 489; S. Schaefer, T. Ju and
// J. Warren, "Manifold dual contouring", IEEE Transactions on Visualization
// and Computer Graphics 13 (2007) 610; M. J. Keeter, "Massively parallel
// rendering of complex closed-form implicit surfaces", ACM Transactions on
// Graphics 39 (2020) 141 (all cited from memory).
package solid
