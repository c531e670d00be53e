package proof

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"
)

// noHash stands for the hash of a file that does not matter.
var noHash = strings.Repeat("0123456789abcdef", 4)

// box is the eight corners of a box as the words of a record.
func box(x0, y0, z0, x1, y1, z1 float64) string {
	var out []string
	for _, x := range [2]float64{x0, x1} {
		for _, y := range [2]float64{y0, y1} {
			for _, z := range [2]float64{z0, z1} {
				out = append(out, point(x, y, z))
			}
		}
	}
	return strings.Join(out, " ")
}

func point(x, y, z float64) string { return num(x) + "," + num(y) + "," + num(z) }

func num(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// lines joins what is given, each piece ending a line.
func lines(pieces ...string) string {
	var out strings.Builder
	for _, p := range pieces {
		if p != "" {
			out.WriteString(strings.TrimRight(p, "\n") + "\n")
		}
	}
	return out.String()
}

// pieces cuts the interval into n equal ones, each closed by a leaf.
func pieces(n int, leaf func(s0, s1 float64) string) string {
	var out []string
	for k := range n {
		s0, s1 := float64(k)/float64(n), float64(k+1)/float64(n)
		if k < n-1 {
			out = append(out, "T "+num(s1))
		}
		out = append(out, leaf(s0, s1))
	}
	return lines(out...)
}

// same is the same leaf for every piece.
func same(leaf string) func(s0, s1 float64) string {
	return func(float64, float64) string { return leaf }
}

// accepted verifies a proof that must hold.
func accepted(t *testing.T, text string) *Report {
	t.Helper()
	r, err := Verify(strings.NewReader(text))
	if err != nil {
		t.Fatalf("refused: %v", err)
	}
	return r
}

// refused verifies a proof that must not hold, for the reason given, at the
// line that begins with what is given ("" for behind the last one).
func refused(t *testing.T, text, line, why string) {
	t.Helper()
	r, err := Verify(strings.NewReader(text))
	var p *Problem
	if !errors.As(err, &p) {
		t.Fatalf("accepted, or no Problem: %v", err)
	}
	if r != nil {
		t.Error("a report comes with the problem")
	}
	if !strings.Contains(p.Why, why) {
		t.Errorf("refused because %q, not because %q", p.Why, why)
	}
	all := strings.Split(strings.TrimRight(text, "\n"), "\n")
	got := ""
	if p.Line <= len(all) {
		got = all[p.Line-1]
	}
	if !strings.HasPrefix(got, line) || (line == "" && p.Line != len(all)+1) {
		t.Errorf("refused at line %d, %q, not at %q (%v)", p.Line, got, line, err)
	}
}

// swap changes one place of a text.
func swap(t *testing.T, text, old, put string) string {
	t.Helper()
	if strings.Count(text, old) != 1 {
		t.Fatalf("%q is there %d times", old, strings.Count(text, old))
	}
	return strings.Replace(text, old, put, 1)
}

// head begins a proof with one zone and one carrier.
func head(scope string) string {
	return lines(Header, "input "+noHash+` "job.yaml"`, "result "+noHash, "scope "+scope,
		`zone wall "wall"`, `zone invert "invert"`, `zone hanger "hanger"`, "carrier 0")
}

// tail ends one of n claims.
func tail(n int) string { return fmt.Sprintf("end %d\n", n) }

func stream(s string) io.Reader { return strings.NewReader(s) }
