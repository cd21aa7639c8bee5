// Package frame is the structural engine: cross-sections, a three-dimensional space frame of
// beams, bodies, springs and rigid links, and a bending plate for the foot under a mast.
//
// Axes are x forward, y left, z up, right-handed, with the origin at the centre of the mounting
// face. Everything is SI: metres, newtons, kilograms, radians, hertz. The six freedoms of a node are
// numbered ux, uy, uz, rx, ry, rz; rotations and moments follow the right hand. A vector of six
// holds a displacement before a rotation, or a force before a moment, in that order.
//
// A member's own axes are its section's x and y and, third, its axis from A to B, so that a mast
// standing on the origin has the body's axes. Members bend about the centroid of their sections and
// twist about the shear centre; an offset of the centroid from the node is a rigid offset.
//
// Data that cannot be computed is an error that names the node, member or section and what to
// change; an index that is out of range is a programming error and panics.
package frame
