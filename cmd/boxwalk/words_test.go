package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boxwalk/clearance/check"
	"boxwalk/clearance/result"
)

// oneWord are words for which another one stands everywhere a user reads.
var oneWord = []struct {
	word    *regexp.Regexp
	instead string
}{
	{regexp.MustCompile(`(?i)\bclosures?\b|\bclosers\b|\bfiller strips?\b|\bstrips (and|out)\b|\[strips\b`), "filler"},
	{regexp.MustCompile(`(?i)\btak(e|es|en|ing) off\b|^off$|^off:| off +limit `), "allowance"},
	{regexp.MustCompile(`(?i)\bcures?\b`), "fix"},
	{regexp.MustCompile(`(?i)\bmend(s|ed|ing)?\b`), "fix"},
	{regexp.MustCompile(`(?i)\bhold.?backs?\b`), "restraint"},
	{regexp.MustCompile(`(?i)\bthe (job's |design |bent )?line('s)?\b`), "pulling line, alignment, wheel line"},
	{regexp.MustCompile(`(?i)\bdig(s|ging)?\b|\bdug\b`), "enters"},
	{regexp.MustCompile(`(?i)\bgap(e|es|ing)\b`), "opens"},
	{regexp.MustCompile(`(?i)\bjam(s|med|ming)?\b`), "clashes"},
	{regexp.MustCompile(`(?i)\bstands? [0-9][^ ]*( mm| in| m)? from\b`), "clear of"},
	{regexp.MustCompile(`(?i)\bplates up\b|\barms (part in|home)\b|\bwall feet\b|\bcrack down\b`), "the step's new name"},
	{regexp.MustCompile(`(?i)\bon trust\b`), "assumed, not proved"},
	{regexp.MustCompile(`(?i)\bzones?\b`), "surface"},
	{regexp.MustCompile(`(?i)\blaps? over the kicker\b|\bwall\.lap\b`), "reach over the kicker"},
}

// otherwise are the same letters for another thing: ids and keys, the place where a
// broken rope flies, a line of a file.
var otherwise = strings.NewReplacer("strip.dig", "", "snap-back zone", "", "zone of the pulling line", "", "on this line", "", "`#`", "")

// speaks holds that a text has none of the words. A key of its own is the word zone.
func speaks(t *testing.T, where, text string) {
	t.Helper()
	if text == "zone" {
		return
	}
	text = strings.Join(strings.Fields(text), " ")
	text = otherwise.Replace(text)
	for _, w := range oneWord {
		if at := w.word.FindStringIndex(text); at != nil {
			t.Errorf("%s says %q and not %q: ...%s...", where, text[at[0]:at[1]], w.instead, text[max(0, at[0]-60):min(len(text), at[1]+60)])
		}
	}
}

// outputs are the outputs of all jobs where BOXWALK_WRITTEN=DIR says they stand, or
// of a few that are made here.
func outputs(t *testing.T) []string {
	t.Helper()
	if there := os.Getenv("BOXWALK_WRITTEN"); there != "" {
		list, err := filepath.Glob(filepath.Join(there, "*", "result.json"))
		if err != nil || len(list) < 20 {
			t.Fatal(err, list)
		}
		for i := range list {
			list[i] = filepath.Dir(list[i])
		}
		return list
	}
	var list []string
	for _, job := range []string{"arms-first", "pindle-beck", "thimblewick"} {
		out := filepath.Join(t.TempDir(), job)
		if code := run([]string{"all", "../../testdata/jobs/" + job + "/job.yaml", "--root", "../..", "-o", out}, quiet(io.Discard, io.Discard)); code > exitShort {
			t.Fatal(job, "exit code", code)
		}
		list = append(list, out)
	}
	return list
}

func TestEveryOutputHasOneWordForOneThing(t *testing.T) {
	for _, out := range outputs(t) {
		for name, text := range relative(t, out) {
			if text == "folder" || strings.HasPrefix(filepath.Base(name), ".") {
				continue
			}
			where := filepath.Base(out) + ", " + name
			list := texts(t, name, []byte(text))
			for _, one := range list {
				speaks(t, where, one)
			}
			if ext := filepath.Ext(name); ext == ".txt" || ext == ".svg" {
				if left := result.Twins(strings.Join(list, " ")); left != "" {
					t.Errorf("%s does not give both names. %s", where, left)
				}
			}
		}
	}
}

func TestHelpSchemasAndExplanationsHaveOneWordForOneThing(t *testing.T) {
	commands := [][]string{{"help"}, {"limits"}, {"explain"}, {"schema", "job"}, {"schema", "gear"}, {"schema", "result"}}
	for _, name := range []string{"all", "check", "draw", "explain", "limits", "schema", "verify", "version", "views"} {
		commands = append(commands, []string{"help", name})
	}
	for _, id := range check.IDs() {
		commands = append(commands, []string{"explain", id})
	}
	for _, c := range commands {
		var out bytes.Buffer
		if code := run(c, quiet(&out, &out)); code != exitPass {
			t.Fatal(c, code, out.String())
		}
		if c[0] == "schema" {
			for _, one := range texts(t, "schema.json", out.Bytes()) {
				speaks(t, strings.Join(c, " "), one)
			}
			continue
		}
		speaks(t, strings.Join(c, " "), out.String())
		if left := result.Twins(out.String()); left != "" {
			t.Errorf("%v does not give both names. %s", c, left)
		}
	}
}

func TestReadmeMessagesAndFilesHaveOneWordForOneThing(t *testing.T) {
	list := []string{"../../README.md"}
	for _, pattern := range []string{"jobs/*/job.yaml", "gear/*.yaml", "bad/*/*.golden"} {
		found, err := filepath.Glob("../../testdata/" + pattern)
		if err != nil || len(found) < 10 {
			t.Fatal(pattern, err, found)
		}
		list = append(list, found...)
	}
	for _, path := range list {
		if strings.HasPrefix(filepath.Base(path), "key-") {
			continue // asked for by another word, which the message repeats
		}
		text := content(t, path)
		speaks(t, path, string(text))
		if strings.HasSuffix(path, ".md") {
			if left := result.Twins(string(text)); left != "" {
				t.Errorf("%s does not give both names. %s", path, left)
			}
		}
	}
}
