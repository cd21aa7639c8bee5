// Package view draws meshes as a shaded technical picture: a software
// rasteriser from a scene and a camera into an image the caller owns.
//
// Lengths in space are in millimetres, axes right-handed, z up; seen from
// above, x is forward and y is left. Lengths in a picture are in pixels, x to
// the right and y down, the middle of the top left pixel at (0.5, 0.5).
// Depth is in millimetres away from the viewer. Angles are in radians.
//
// The package writes no text. Camera.Project and Camera.Dimension tell where
// the caller's labels belong.
package view
