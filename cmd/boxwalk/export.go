package main

import (
	"fmt"
	"io"

	"boxwalk/clearance/result"
	"boxwalk/export/assembly"
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
		Example: "  boxwalk export step job.yaml -o out",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return wrong("export takes a format: step\nFor example:\n%s", c.Example)
		},
	}
	c.AddCommand(a.stepCommand())
	return c
}

func (a *app) stepCommand() *cobra.Command {
	var at place3D
	c := a.outputCommand("step", "Write the carrier raised and collapsed as STEP solids (ISO 10303-21)", "solids/", func(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
		return at.files(s, r)
	})
	c.Example = "  boxwalk export step job.yaml -o out --cell 1 --pour 2 --state governing"
	c.Flags().IntVar(&at.cell, "cell", 1, "number of the cell")
	c.Flags().IntVar(&at.pour, "pour", 1, "number of the pour")
	c.Flags().StringVar(&at.state, "state", "", "one more file: the end of the step of that name, or 'governing', where the worst clearance of the collapse is")
	return c
}

// place3D is which bay to write, and which state beside raised and collapsed.
type place3D struct {
	cell, pour int
	state      string
}

// solids are those of the first cell at its first pour.
func solids(s *model.Study, r *result.Result, _ units.System) ([]product, error) {
	return place3D{cell: s.Bays[0].Cell.Number, pour: s.Bays[0].Pour.Number}.files(s, r)
}

// files are one for each state.
func (p place3D) files(s *model.Study, r *result.Result) ([]product, error) {
	b := p.bay(s)
	if b == nil {
		return nil, wrong("there is no pour %d in cell %d; there are cells 1 to %d and pours 1 to %d", p.pour, p.cell, len(s.Culvert.Cells), len(s.Culvert.Pours))
	}
	states, err := p.states(b, r)
	if err != nil {
		return nil, err
	}
	head := step.Head{Origin: r.Origin(), Remarks: remarks(r)}
	var out []writer
	for _, at := range states {
		name := fmt.Sprintf("cell-%d-pour-%d-%s.step", b.Cell.Number, b.Pour.Number, at.name)
		of := assembly.Of(b, at.State)
		out = append(out, writer{"solids/" + name, func(w io.Writer) error {
			head := head
			head.Name = name
			return step.Encode(w, of, head)
		}})
	}
	return encoded(out)
}

func (p place3D) bay(s *model.Study) *model.Bay {
	for i := range s.Bays {
		if b := &s.Bays[i]; b.Cell.Number == p.cell && b.Pour.Number == p.pour {
			return b
		}
	}
	return nil
}

// namedState is a state with its part of a file's name.
type namedState struct {
	assembly.State
	name string
}

func (p place3D) states(b *model.Bay, r *result.Result) ([]namedState, error) {
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
func remarks(r *result.Result) []string {
	out := []string{"Millimetres, in the frame of cell and pour: x ahead, y left, z up, origin on the centreline at the top of the invert at the pour's rear end.",
		"Concrete is as the checks have it: bodies run into each other where they meet."}
	if !r.Cleared() {
		out = append(out, "NOT CLEARED: checks fail or stay open.")
	}
	return append(append(out, r.Reservations()...), r.Cautions...)
}
