package main

import (
	"fmt"
	"io"

	"boxwalk/clearance/result"
	"boxwalk/export/assembly"
	"boxwalk/export/gltf"
	"boxwalk/export/step"
	"boxwalk/model"
	"boxwalk/model/units"

	"github.com/spf13/cobra"
)

// exportCommand writes a carrier for other programs.
func (a *app) exportCommand() *cobra.Command {
	c := &cobra.Command{
		Use:     "export",
		Short:   "Write the carrier and the concrete round it as solids for other programs",
		Example: "  boxwalk export step job.yaml -o out\n  boxwalk export glb job.yaml -o out",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return wrong("export takes a format: step or glb\nFor example:\n%s", c.Example)
		},
	}
	c.AddCommand(a.stepCommand(), a.glbCommand())
	return c
}

func (a *app) stepCommand() *cobra.Command {
	var at place3D
	c := a.outputCommand("step", "Write the carrier raised and collapsed as STEP solids (ISO 10303-21)", "solids/step/", at.step)
	c.Example = "  boxwalk export step job.yaml -o out --cell 1 --pour 2 --state governing"
	at.flags(c)
	c.Flags().StringVar(&at.state, "state", "", "one more file: the end of the step of that name, or 'governing', where the worst clearance of the collapse is")
	return c
}

func (a *app) glbCommand() *cobra.Command {
	var at place3D
	c := a.outputCommand("glb", "Write the carrier as binary glTF 2.0, with collapse, rolling and raising as animations", "solids/glb/", at.glb)
	c.Example = "  boxwalk export glb job.yaml -o out --cell 1 --pour 2"
	at.flags(c)
	return c
}

func (p *place3D) flags(c *cobra.Command) {
	c.Flags().IntVar(&p.cell, "cell", 1, "number of the cell")
	c.Flags().IntVar(&p.pour, "pour", 1, "number of the pour")
}

// place3D is which bay to write, and which state beside raised and collapsed.
type place3D struct {
	cell, pour int
	state      string
}

// solids are those of the first cell at its first pour.
func solids(s *model.Study, r *result.Result, u units.System) ([]product, error) {
	at := place3D{cell: s.Bays[0].Cell.Number, pour: s.Bays[0].Pour.Number}
	return together(s, r, u, at.step, at.glb)
}

// step is a file for each state.
func (p *place3D) step(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
	b, err := p.bay(s)
	if err != nil {
		return nil, err
	}
	states, err := p.states(b, r)
	if err != nil {
		return nil, err
	}
	var out []writer
	for _, at := range states {
		head := step.Head{Name: p.name(at.name + ".step"), Origin: r.Origin(), Remarks: remarks(r, "Millimetres")}
		of := assembly.Of(b, at.State)
		out = append(out, writer{"solids/step/" + head.Name, func(w io.Writer) error { return step.Encode(w, of, head) }})
	}
	return encoded(out)
}

// glb is one file with all that moves.
func (p *place3D) glb(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
	b, err := p.bay(s)
	if err != nil {
		return nil, err
	}
	of := assembly.Of(b, assembly.Raised)
	motions := assembly.Motions(b, of, r)
	head := gltf.Head{Origin: r.Origin(), Remarks: remarks(r, "Metres, turned so that y is up")}
	return encoded([]writer{{"solids/glb/" + p.name("moving.glb"), func(w io.Writer) error { return gltf.Encode(w, of, motions, head) }}})
}

// name of a file about the place.
func (p *place3D) name(what string) string {
	return fmt.Sprintf("cell-%d-pour-%d-%s", p.cell, p.pour, what)
}

func (p *place3D) bay(s *model.Study) (*model.Bay, error) {
	for i := range s.Bays {
		if b := &s.Bays[i]; b.Cell.Number == p.cell && b.Pour.Number == p.pour {
			return b, nil
		}
	}
	return nil, wrong("there is no pour %d in cell %d; there are cells 1 to %d and pours 1 to %d", p.pour, p.cell, len(s.Culvert.Cells), len(s.Culvert.Pours))
}

// namedState is a state with its part of a file's name.
type namedState struct {
	assembly.State
	name string
}

func (p *place3D) states(b *model.Bay, r *result.Result) ([]namedState, error) {
	out := []namedState{{assembly.Raised, "raised"}, {assembly.Collapsed(b), "collapsed"}}
	switch p.state {
	case "", "raised", "collapsed":
		return out, nil
	case "governing":
		at, ok := assembly.Governing(b, r)
		if !ok {
			return nil, wrong("nothing was measured in the collapse of cell %d, pour %d, so that no place governs", p.cell, p.pour)
		}
		return append(out, namedState{at, "governing"}), nil
	}
	at, err := assembly.Named(b, p.state)
	if err != nil {
		return nil, wrong("%v", err)
	}
	return append(out, namedState{at, fmt.Sprintf("step-%d", at.Step+1)}), nil
}

// remarks are what whoever opens a file of solids has to know.
func remarks(r *result.Result, unit string) []string {
	out := []string{unit + "; in the frame of cell and pour: x ahead, y left, z up, origin on the centreline at the top of the invert at the pour's rear end.",
		"Concrete is as the checks have it: bodies run into each other where they meet."}
	if !r.Cleared() {
		out = append(out, "NOT CLEARED: checks fail or stay open.")
	}
	return append(append(out, r.Reservations()...), r.Cautions...)
}
