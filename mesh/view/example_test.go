package view_test

import (
	"fmt"
	"image"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/view"
)

func Example() {
	palette := view.Light()
	scene := &view.Scene{
		Palette: palette,
		Things: []view.Thing{
			{Surface: view.Prepare(view.Box(r3.Box{Max: r3.Vec{X: 40, Y: 40, Z: 4}})), Colour: palette.Print},
			{Surface: view.Prepare(view.Cylinder(r3.Vec{}, r3.Vec{Z: 90}, 8)), Colour: palette.Print, Pose: mesh.Move(r3.Vec{X: 20, Y: 20, Z: 4})},
		},
	}
	picture := image.NewRGBA(image.Rect(0, 0, 320, 240))
	camera := scene.Fit(view.Camera{Size: picture.Rect.Size()}.From(view.Corner), 20)

	var renderer view.Renderer // keep it: its buffers serve the next picture
	renderer.Draw(picture, scene, camera, view.Options{Fine: true})

	hit, ok := scene.Pick(camera, 160, 120, 4)
	fmt.Println(ok, hit.Thing)
	// Output: true 1
}

func ExampleCamera_Project() {
	camera := view.Camera{Scale: 2, Size: image.Pt(200, 100)}.From(view.Side)
	p := camera.Project(r3.Vec{X: 30, Z: 10})
	fmt.Printf("%.0f %.0f\n", p.X, p.Y)
	// Output: 160 30
}

func ExampleCamera_Dimension() {
	camera := view.Camera{Scale: 2, Size: image.Pt(200, 200)}.From(view.Front)
	d, ok := camera.Dimension(r3.Vec{Z: -40}, r3.Vec{Z: 40}, r3.Vec{Y: 15}, view.DimensionOptions{})
	fmt.Println(ok, d.Outside)
	fmt.Printf("line from (%.0f, %.0f) to (%.0f, %.0f), figure at (%.0f, %.0f)\n",
		d.Line[0].X, d.Line[0].Y, d.Line[1].X, d.Line[1].Y, d.Text.X, d.Text.Y)
	// Output:
	// true false
	// line from (130, 180) to (130, 20), figure at (130, 100)
}

func ExampleSurface_Displace() {
	mast := view.Prepare(view.Cylinder(r3.Vec{}, r3.Vec{Z: 100}, 8))
	sway := mast.Displace(func(p r3.Vec) r3.Vec {
		return r3.Vec{X: 6 * (1 - math.Cos(math.Pi/2*p.Z/100))} // 6 mm at the tip
	})
	moving := view.Thing{Surface: mast, Shift: sway, Amount: -1}
	scene := &view.Scene{Things: []view.Thing{moving}}
	fmt.Printf("%.0f\n", scene.Box().Min.X)
	// Output: -14
}
