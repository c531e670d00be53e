package trace

import (
	"fmt"
	"io"
	"math"
	"strings"
	"sync"
)

// header is the first line of a proof.
const header = "boxwalk-proof 1"

// Write searches every claim's tree, on so many goroutines, and writes the
// proof. The bytes depend on the proof only. An error names the first claim that
// cannot be shown as stated; nothing is written then.
func (p *Proof) Write(w io.Writer, workers int) error {
	for _, c := range p.Carriers {
		c.index()
	}
	for _, place := range p.Places {
		place.index()
		for _, s := range place.Steps {
			s.index(p.Carriers[place.Carrier])
		}
	}
	trees, err := p.search(workers)
	if err != nil {
		return err
	}
	var head records
	p.head(&head)
	if _, err := w.Write(head.Bytes()); err != nil {
		return err
	}
	for _, t := range trees {
		if _, err := w.Write(t.Bytes()); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(w, "end %d\n", len(trees))
	return err
}

// search writes each claim's records by itself.
func (p *Proof) search(workers int) ([]records, error) {
	out, errs := make([]records, len(p.Claims)), make([]error, len(p.Claims))
	next := make(chan int)
	var wg sync.WaitGroup
	for range max(1, workers) {
		wg.Go(func() {
			for i := range next {
				errs[i] = p.claim(p.Claims[i], &out[i])
			}
		})
	}
	for i := range p.Claims {
		next <- i
	}
	close(next)
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// claim writes one claim: what is asked, and the tree that shows it.
func (p *Proof) claim(c *Claim, out *records) error {
	t := &tree{Claim: c, out: out, carrier: p.Carriers[c.Carrier]}
	root := node{a: c.Step.present, self: c.Place < 0, s1: 1}
	if c.Place < 0 {
		root.b = root.a
		out.add("self", whole(c.Carrier), whole(c.Step.ID))
	} else {
		t.place = p.Places[c.Place]
		root.b = t.place.around(c.Step, c.Set)
		out.add("claim", whole(c.Place), whole(c.Step.ID), c.Set)
	}
	t.ask(t.carrier)
	t.prove(root)
	return t.err
}

// scenes are the letters of what stands around in each kind of step.
var scenes = map[string]string{Strip: "s", End: "s", Raise: "r", Roll: "a"}

// around lists the solids of a set in a step.
func (p *Place) around(s *Step, set string) []int {
	zone, kind, only := strings.Cut(set, ":")
	var out []int
	for i, x := range p.Solids {
		if x.Zone == zone && (!only || x.Kind == kind) && strings.Contains(x.Scenes, scenes[s.Kind]) {
			out = append(out, i)
		}
	}
	return out
}

// ask writes what the claim asks and works it out for each part.
func (t *tree) ask(c *Carrier) {
	n := len(c.Parts)
	t.free, t.touch = make([]float64, n), make([]float64, n)
	all := make([]int, n)
	for i := range n {
		t.free[i], t.touch[i], all[i] = math.Inf(-1), math.Inf(-1), i
	}
	for _, need := range t.Needs {
		word, floors := "need", t.free
		if need.Touch {
			word, floors = "touch", t.touch
		}
		words := []string{word, need.ID, decimal(need.Lower)}
		if need.Far {
			words = append(words, "far")
		}
		t.out.add(words...)
		byUM := map[int][]int{}
		for i := range n {
			um := need.Less[i]
			if um != 0 {
				byUM[um] = append(byUM[um], i)
			}
			floors[i] = math.Max(floors[i], need.Lower+float64(um)*1e-6-slack)
		}
		for _, um := range sortedKeys(byUM) {
			t.out.add("less", whole(um), list(byUM[um], all))
		}
		if w := need.Near; w != nil {
			t.out.add("near", decimal(w.Upper), decimal(w.S), whole(w.One), weights(w.A), whole(w.Other), weights(w.B))
		}
	}
	for _, e := range t.Each {
		t.each(e)
	}
}

func (t *tree) each(e Each) {
	words := []string{"each", whole(e.Part), "-", "-"}
	for k, v := range [2]float64{e.Free, e.Touch} {
		if !math.IsInf(v, -1) {
			floors := [2][]float64{t.free, t.touch}[k]
			floors[e.Part] = math.Max(floors[e.Part], v-slack)
			words[2+k] = decimal(v)
		}
	}
	t.out.add(words...)
}
