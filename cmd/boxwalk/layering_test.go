package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// everywhere are the packages that any layer above them may import.
var everywhere = []string{"model/units", "model/diag", "model/geom"}

// may is what each package may import of ours, besides everywhere; a name with
// /... stands for itself and everything below.
var may = map[string][]string{
	"model/units":       nil,
	"model/diag":        nil,
	"model/geom":        nil,
	"model/geom/exact":  nil,
	"model/job":         nil,
	"model/align":       nil,
	"model/motion":      nil,
	"model/formula":     nil,
	"model/load":        nil,
	"model/frame":       {"model/load"},
	"model/culvert":     {"model/job", "model/align"},
	"model/carrier":     {"model/job", "model/motion", "model/culvert"},
	"model":             {"model/..."},
	"clearance/gap":     nil,
	"clearance/sweep":   {"clearance/gap"},
	"clearance/trace":   {"clearance/sweep", "clearance/gap"},
	"clearance/proof":   nil,
	"clearance/allow":   {"model/...", "clearance/sweep"},
	"clearance/result":  {"model/culvert", "model/formula"},
	"clearance/measure": {"model/...", "clearance/sweep", "clearance/allow", "clearance/result"},
	"clearance/statics": {"model/..."},
	"clearance/release": {"model/..."},
	"clearance/cycle":   nil,
	"clearance/check":   {"model/...", "clearance/sweep", "clearance/allow", "clearance/result", "clearance/measure", "clearance/statics", "clearance/release", "clearance/cycle"},
	"clearance/fix":     {"model/...", "clearance/check", "clearance/result"},
	"clearance/certify": {"model/...", "clearance/sweep", "clearance/trace", "clearance/result", "clearance/measure", "clearance/check"},
	"clearance/worked":  {"model/..."},
	"export/sheet":      nil,
	"export/scene":      nil,
	"export/lineart":    {"export/scene", "export/sheet"},
	"export/assembly":   {"model/...", "clearance/result"},
	"export/step":       {"model/...", "export/assembly"},
	"export/gltf":       {"model/...", "export/assembly"},
	"export/views":      {"model/...", "clearance/check", "clearance/result", "export/sheet", "export/scene", "export/lineart"},
	"export/dxf":        {"export/sheet"},
	"export/svg":        {"export/sheet"},
	"export/plot":       nil,
	"export/report":     {"model/...", "clearance/allow", "clearance/check", "clearance/result", "clearance/statics", "export/plot", "export/table"},
	"export/page":       {"model/formula", "clearance/result", "export/plot", "export/report"},
	"export/pdf":        {"model/formula", "clearance/result", "export/plot", "export/report", "export/sheet"},
	"export/table":      {"model/...", "clearance/check", "clearance/result"},
	"cmd/boxwalk":       {"model/...", "clearance/...", "export/..."},
}

// machine is what only the command may import of the standard library.
var machine = []string{"os", "flag", "time", "net"}

// forTests are packages that only tests import; they may read files.
var forTests = []string{"model/geom/exact", "clearance/worked"}

// sources parses every file that is not a test, by the folder of its package.
func sources(t *testing.T, mode parser.Mode) map[string]map[string]*ast.File {
	t.Helper()
	out := map[string]map[string]*ast.File{}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(files, path, nil, mode)
		if err != nil {
			return err
		}
		name, err := filepath.Rel("../..", filepath.Dir(path))
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if out[name] == nil {
			out[name] = map[string]*ast.File{}
		}
		out[name][path] = f
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

var files = token.NewFileSet()

func TestImportsGoOneWayByTheTable(t *testing.T) {
	for name, list := range sources(t, parser.ImportsOnly) {
		allowed, known := may[name]
		if !known {
			t.Errorf("package %s is not in the table", name)
			continue
		}
		for path, f := range list {
			for _, i := range f.Imports {
				what := strings.Trim(i.Path.Value, `"`)
				if ours, is := strings.CutPrefix(what, "boxwalk/"); is && !allows(allowed, ours) {
					t.Errorf("%s imports %s", path, what)
				}
				if slices.Contains(forTests, strings.TrimPrefix(what, "boxwalk/")) {
					t.Errorf("%s imports %s, which is for tests", path, what)
				}
				root, _, _ := strings.Cut(what, "/")
				if name != "cmd/boxwalk" && !slices.Contains(forTests, name) && slices.Contains(machine, root) {
					t.Errorf("%s imports %s; only cmd/boxwalk may", path, what)
				}
			}
		}
	}
}

func allows(list []string, name string) bool {
	for _, a := range append(list, everywhere...) {
		below, all := strings.CutSuffix(a, "/...")
		if a == name || all && (name == below || strings.HasPrefix(name, below+"/")) {
			return true
		}
	}
	return false
}

func TestFilesAndFunctionsStayShort(t *testing.T) {
	for name, list := range sources(t, 0) {
		if slices.Contains([]string{"util", "common", "helper", "helpers", "utils"}, filepath.Base(name)) {
			t.Errorf("package %s has no name", name)
		}
		for path, f := range list {
			if n := files.Position(f.End()).Line; n > 500 {
				t.Errorf("%s has %d lines", path, n)
			}
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok {
					continue
				}
				if n := files.Position(fn.End()).Line - files.Position(fn.Pos()).Line + 1; n > 60 {
					t.Errorf("%s: %s has %d lines", path, fn.Name.Name, n)
				}
			}
		}
	}
}
