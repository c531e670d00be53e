package table

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// place is one cell at one pour.
type place struct{ cell, pour int }

// named writes places short: "cells 1-2, pours 1-4", or a list where they are
// no full block. Places of one word each ("cell 1, pour 2") stay singular.
func named(places []place) string {
	var out []string
	for _, b := range blocks(places) {
		out = append(out, spans("cell", b.cells)+", "+spans("pour", b.pours))
	}
	return strings.Join(out, "; ")
}

func sortedKeys[V any](m map[int]V) []int {
	var out []int
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// spans is a word and its numbers: "pour 3", "pours 1-4", "pours 1, 3-4".
func spans(word string, numbers []int) string {
	if len(numbers) > 1 {
		word += "s"
	}
	return word + " " + runs(numbers)
}

// runs writes whole numbers with runs drawn together: "1-4, 6".
func runs(numbers []int) string {
	sorted := slices.Clone(numbers)
	slices.Sort(sorted)
	var out []string
	for i := 0; i < len(sorted); {
		k := i
		for k+1 < len(sorted) && sorted[k+1] == sorted[k]+1 {
			k++
		}
		text := strconv.Itoa(sorted[i])
		if k > i {
			text = fmt.Sprintf("%d-%d", sorted[i], sorted[k])
		}
		out = append(out, text)
		i = k + 1
	}
	return strings.Join(out, ", ")
}

// block is every one of some pours in every one of some cells.
type block struct{ cells, pours []int }

// blocks divides places into full blocks: cells with the same pours share one.
func blocks(places []place) []block {
	pours := map[int][]int{}
	for _, p := range places {
		if !slices.Contains(pours[p.cell], p.pour) {
			pours[p.cell] = append(pours[p.cell], p.pour)
		}
	}
	var out []block
	at := map[string]int{}
	for _, cell := range sortedKeys(pours) {
		text := runs(pours[cell])
		n, ok := at[text]
		if !ok {
			n = len(out)
			at[text] = n
			out = append(out, block{pours: pours[cell]})
		}
		out[n].cells = append(out[n].cells, cell)
	}
	return out
}

// Places names cells and pours short, each a pair of the two.
func Places(list [][2]int) string {
	places := make([]place, len(list))
	for i, p := range list {
		places[i] = place{p[0], p[1]}
	}
	return named(places)
}
