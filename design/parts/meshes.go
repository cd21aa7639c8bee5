package parts

import (
	"context"
	"fmt"
	"sync"

	"mastwright/mesh"
	"mastwright/mesh/solid"
)

// Meshes makes the meshes of all parts at once, in their order and each where its part's solid stands, and tells how each went. The
// error is that of the first part that has one, with the part's name.
func (a Assembly) Meshes(ctx context.Context, o solid.Options) ([]*mesh.Mesh, []solid.Report, error) {
	meshes, reports, wrong := make([]*mesh.Mesh, len(a.Parts)), make([]solid.Report, len(a.Parts)), make([]error, len(a.Parts))
	var done sync.WaitGroup
	for i, p := range a.Parts {
		shape := p.Solid()
		done.Go(func() { meshes[i], reports[i], wrong[i] = solid.Polygonise(ctx, shape, o) })
	}
	done.Wait()
	for i, err := range wrong {
		if err != nil {
			return nil, nil, fmt.Errorf("part %q: %w", a.Parts[i].Name, err)
		}
	}
	return meshes, reports, nil
}
