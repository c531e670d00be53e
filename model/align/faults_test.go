package align

import (
	"strings"
	"testing"
)

func TestProfileBeforeTheStartIsToldAtTheProfile(t *testing.T) {
	for _, last := range []float64{6, 1000} {
		_, faults := New(Start{Station: 1000}, nil, []PVI{{Station: 0}, {Station: last}}, 0)
		if len(faults) != 1 || faults[0].Key != "profile[1].station" || !strings.Contains(faults[0].Summary, "the alignment starts at 1000 m") || faults[0].Fix == "" {
			t.Errorf("to %g: %v", last, faults)
		}
	}
}

func TestEveryFaultOfAProfileSaysWhatWouldDo(t *testing.T) {
	for want, points := range map[string][]PVI{
		"write an elevation from -2.5 m to 2.5 m":           {{0, 0, 0}, {10, 5, 0}},
		"write at most 20 m":                                {{0, 0, 0}, {10, 0, 21}, {30, 0, 0}},
		"write a curve of at most 10 m at the point before": {{0, 0, 0}, {25, 0, 11}, {30, 0, 0}},
		"write two curves of 16 m together at most":         {{0, 0, 0}, {12, 0, 8}, {20, 0, 9}, {40, 0, 0}},
		"write the points in order of their stations":       {{0, 0, 0}, {10, 0, 0}, {5, 0, 0}},
		"leave it out at the first and the last point":      {{0, 0, 1}, {10, 0, 0}},
		"write the elevation at both ends of the alignment": {{0, 0, 0}},
	} {
		_, faults := New(Start{}, nil, points, 0)
		if len(faults) == 0 || faults[0].Fix != want {
			t.Errorf("%v: %v, want %q", points, faults, want)
		}
	}
}

func TestFaultsOfALandXMLPlanAreToldAtTheirElement(t *testing.T) {
	elements := "\n<Line><Start>0 0</Start><End>10 0</End></Line>\n<Line><Start>10 0</Start><End>10 10</End></Line>\n"
	refused(t, wrap(elements, level), "", "a.xml:3:1: error: turn: -90 deg is not from -60 deg to 60 deg")
	elements = "\n<Line><Start>0 0</Start><End>10 0</End></Line>\n" + `<Curve rot="cw" radius="2"><Start>10 0</Start><Center>10 2</Center><End>12 2</End></Curve>` + "\n"
	refused(t, wrap(elements, level), "", "a.xml:3:1: error: curve radius: 2 m is not from 5 m")
}

// What stops a file that is no XML is told with what mends it.
func TestBrokenXMLIsToldWithItsFix(t *testing.T) {
	good := string(wrap(`<Line><Start>0 0</Start><End>10 0</End></Line>`, level))
	for want, text := range map[string]string{
		"the file was cut off: copy or export it again":           good[:len(good)/2],
		"the encoding EBCDIC is not read; save the file as UTF-8": `<?xml version="1.0" encoding="EBCDIC"?>` + good,
		"invalid UTF-8; save the file as UTF-8":                   strings.Replace(good, `"a"`, "\"\xff\"", 1),
		"no entities but &amp;":                                   strings.Replace(good, `"a"`, `"&a;"`, 1),
		"closed by </End>; export the file again":                 strings.Replace(good, "</Start><End>", "</End><Start>", 1),
	} {
		refused(t, []byte(text), "", want)
	}
}
