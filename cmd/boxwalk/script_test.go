package main

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"boxwalk/export/table"
)

var update = flag.Bool("update", false, "take over what the program prints")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"boxwalk": main, "rewrite": rewrite})
}

// TestScripts runs the program as people do. A failing comparison with a file
// of the script is taken over with -update.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup:         copyJobs,
		Condition: func(name string) (bool, error) {
			if name != "long" {
				return false, errors.New("the only condition of ours is long")
			}
			return long(), nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"validate": validate,
			"replace":  replace,
			"exits":    exits,
			"tree":     tree,
			"large":    large,
		},
	})
}

// copyJobs puts the project's jobs and gear into the folder of a script.
func copyJobs(e *testscript.Env) error {
	for _, name := range []string{"jobs", "gear"} {
		if err := os.CopyFS(filepath.Join(e.WorkDir, name), os.DirFS(filepath.Join("../../testdata", name))); err != nil {
			return err
		}
	}
	return nil
}

// exits CODE ARG...: runs boxwalk and holds its exit code against CODE. Its
// streams are compared as usual, with stdout, stderr and cmp.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE ARG...")
	}
	code := 0
	var failed *exec.ExitError
	if err := ts.Exec("boxwalk", args[1:]...); errors.As(err, &failed) {
		code = failed.ExitCode()
	} else {
		ts.Check(err)
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit code %d, want %s", code, args[0])
	}
}

// validate FILE: holds a result against its schema.
func validate(ts *testscript.TestScript, neg bool, args []string) {
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(ts.ReadFile(args[0])))
	ts.Check(err)
	schema, err := jsonschema.UnmarshalJSON(bytes.NewReader(table.Schema))
	ts.Check(err)
	c := jsonschema.NewCompiler()
	ts.Check(c.AddResource("result", schema))
	compiled, err := c.Compile("result")
	ts.Check(err)
	if err := compiled.Validate(doc); (err != nil) != neg {
		ts.Fatalf("validation: %v", err)
	}
}

// replace FILE OLD NEW: changes a text in a file, which must have it. A line
// break is written \n.
func replace(ts *testscript.TestScript, _ bool, args []string) {
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[1]) {
		ts.Fatalf("%s does not contain %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(text, args[1], strings.ReplaceAll(args[2], `\n`, "\n"))), 0o644))
}

// tree FOLDER FILE: writes the names of all files below a folder to a file.
func tree(ts *testscript.TestScript, _ bool, args []string) {
	var out strings.Builder
	ts.Check(filepath.WalkDir(ts.MkAbs(args[0]), func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(ts.MkAbs(args[0]), path)
			out.WriteString(filepath.ToSlash(rel) + "\n")
		}
		return err
	}))
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(out.String()), 0o644))
}

// large FILE: makes a file larger than any that is read.
func large(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), bytes.Repeat([]byte("# nothing\n"), 1<<20), 0o644))
}
