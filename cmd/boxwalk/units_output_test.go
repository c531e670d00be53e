package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Numbers with a unit of either system, wherever a person reads them. A length in
// feet and inches is one of digits and marks: 4'-1 7/16".
var (
	metricNumber   = regexp.MustCompile(`(?i)[0-9] ?(mm|cm|m|km|kN|N|MPa|kPa|kg|t|kN/m3|degC)\b|\((mm|m|kN|MPa|kPa|kg|t|degC)\)|millimetre|\b(metre|kilonewton|kilogram)s?\b`)
	imperialNumber = regexp.MustCompile(`(?i)[0-9] ?(in|ft|lb|lbf|kip|psi|psf|pcf|degF)\b|\((in|ft|lb|kip|psi|degF)\)|[0-9]["']-?|\b(inch|inches|feet|pounds?)\b`)
)

// ourWords are no inches: 870 in tube.
var ourWords = strings.NewReplacer(" in tube", " inside tube")

// texts are the strings of an output file that a person reads, by its kind.
func texts(t *testing.T, name string, content []byte) []string {
	t.Helper()
	switch filepath.Ext(name) {
	case ".json":
		return jsonStrings(t, name, content)
	case ".html":
		return htmlTexts(t, name, content)
	case ".pdf", ".step", ".glb":
		return nil // the same report, read in .ci/run; solids, for programs
	case ".svg":
		return svgTexts(t, name, content)
	case ".dxf":
		return dxfTexts(t, name, content)
	case ".csv":
		r := csv.NewReader(bytes.NewReader(content))
		r.FieldsPerRecord, r.LazyQuotes = -1, true // what is said above the table is no row of it
		rows, err := r.ReadAll()
		if err != nil {
			t.Fatal(name, err)
		}
		return slices.Concat(rows...)
	}
	return strings.Split(string(content), "\n")
}

// jsonStrings are all strings but those under the keys that name SI units, which
// the values beside them are in.
func jsonStrings(t *testing.T, name string, content []byte) []string {
	var v any
	if err := json.Unmarshal(content, &v); err != nil {
		t.Fatal(name, err)
	}
	var out []string
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case string:
			out = append(out, v)
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			for k, x := range v {
				if k != "unit" && k != "working" { // a working is in SI units
					walk(x)
				}
			}
		}
	}
	walk(v)
	return out
}

// htmlTexts are the texts of a page but its style, workings, which are in SI units, and
// what is in the tool's own words.
func htmlTexts(t *testing.T, name string, content []byte) []string {
	var out []string
	d := xml.NewDecoder(bytes.NewReader(content))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	skip := 0 // depth below what is not looked at
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(name, err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			class := slices.ContainsFunc(token.Attr, func(a xml.Attr) bool {
				return a.Name.Local == "class" && (a.Value == "working" || strings.Contains(a.Value, "words"))
			})
			if skip > 0 || class || token.Name.Local == "style" {
				skip++
			}
		case xml.EndElement:
			skip = max(0, skip-1)
		case xml.CharData:
			if skip == 0 {
				out = append(out, string(token))
			}
		}
	}
}

func svgTexts(t *testing.T, name string, content []byte) []string {
	var out []string
	d := xml.NewDecoder(bytes.NewReader(content))
	skip := 0 // depth below what is not shown
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(name, err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if skip > 0 || token.Name.Local == "style" {
				skip++
			}
		case xml.EndElement:
			skip = max(0, skip-1)
		case xml.CharData:
			if skip == 0 {
				out = append(out, string(token))
			}
		}
	}
}

// dxfTexts are the values of the groups that hold lettering: 1 and 3 of texts,
// dimensions and attributes.
func dxfTexts(t *testing.T, name string, content []byte) []string {
	lines := strings.Split(strings.ReplaceAll(string(content), "\r\n", "\n"), "\n")
	var out []string
	for i := 0; i+1 < len(lines); i += 2 {
		if code := strings.TrimSpace(lines[i]); code == "1" || code == "3" {
			out = append(out, lines[i+1])
		}
	}
	if len(out) == 0 {
		t.Fatal(name, "has no lettering")
	}
	return out
}

// Everything that boxwalk all writes and prints for a job in feet and inches
// tells no metric number, though its gear file is metric, and the reverse.
func TestEveryOutputTellsTheUnitsOfTheJob(t *testing.T) {
	for _, c := range []struct {
		job          string
		own, foreign *regexp.Regexp
	}{{"heron-creek", imperialNumber, metricNumber}, {"one-pour", metricNumber, imperialNumber}} {
		folder := t.TempDir()
		var printed bytes.Buffer
		if code := run([]string{"all", "../../testdata/jobs/" + c.job + "/job.yaml", "--root", "../..", "-o", folder}, quiet(&printed, &printed)); code != exitPass && code != exitShort {
			t.Fatalf("%s: exit %d: %s", c.job, code, printed.String())
		}
		told := map[string]int{}
		look := func(name string, content []byte) {
			for _, text := range texts(t, name, content) {
				text = ourWords.Replace(text)
				if found := c.foreign.FindString(text); found != "" {
					t.Errorf("%s, %s tells %q: %s", c.job, name, found, text)
				}
				if c.own.MatchString(text) {
					told[filepath.Ext(name)]++
				}
			}
		}
		look("terminal", printed.Bytes())
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			name := filepath.Base(path)
			if err != nil || d.IsDir() || name == "result.schema.json" || strings.HasPrefix(name, ".") {
				return err
			}
			content, err := os.ReadFile(path)
			look(name, content)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		for ending, least := range map[string]int{"": 1, ".json": 50, ".csv": 4, ".txt": 10, ".svg": 40, ".dxf": 40} {
			if told[ending] < least {
				t.Errorf("%s: only %d texts in %q tell a number in the job's own units, want %d", c.job, told[ending], ending, least)
			}
		}
	}
}
