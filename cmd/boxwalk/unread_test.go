package main

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boxwalk/model/job"
)

// reader type-checks the module's own packages, and notes which fields of the structs
// of job and gear files are read outside the rules that only hold files to be sound.
type reader struct {
	fset     *token.FileSet
	standard types.Importer
	packages map[string]*types.Package
	fields   map[*types.Var]string // of package job: Type.Field
	read     map[string]bool
}

func (r *reader) Import(path string) (*types.Package, error) {
	rest, ours := strings.CutPrefix(path, "boxwalk/")
	if !ours {
		if p, err := r.standard.Import(path); err == nil {
			return p, nil
		}
		return types.NewPackage(path, filepath.Base(path)), nil // its calls tell nothing of fields of ours
	}
	if p := r.packages[path]; p != nil {
		return p, nil
	}
	return r.check(path, "../../"+rest)
}

// check type-checks a folder of the module and notes what it reads.
func (r *reader) check(path, folder string) (*types.Package, error) {
	names, err := filepath.Glob(folder + "/*.go")
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(r.fset, name, nil, 0)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	info := &types.Info{Selections: map[*ast.SelectorExpr]*types.Selection{}}
	config := types.Config{Importer: r, Error: func(error) {}} // only what packages that are not ours give is unknown
	p, _ := config.Check(path, r.fset, files, info)
	r.packages[path] = p
	if path == "boxwalk/model/job" {
		r.keep(p)
	}
	written := map[ast.Expr]bool{}
	for _, f := range files {
		if name := filepath.Base(r.fset.Position(f.Pos()).Filename); path == "boxwalk/model/job" && strings.HasPrefix(name, "rules") {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				for _, left := range n.Lhs {
					written[left] = true
				}
			case *ast.SelectorExpr:
				if s := info.Selections[n]; s != nil && !written[n] {
					if v, ok := s.Obj().(*types.Var); ok {
						r.read[r.fields[v]] = true
					}
				}
			}
			return true
		})
	}
	return p, nil
}

// keep remembers the fields of the structs of package job.
func (r *reader) keep(p *types.Package) {
	for _, name := range p.Scope().Names() {
		if s, ok := p.Scope().Lookup(name).Type().Underlying().(*types.Struct); ok {
			for f := range s.Fields() {
				r.fields[f] = name + "." + f.Name()
			}
		}
	}
}

// toldElsewhere are keys that no field tells of: what there is only one way of, and what is
// read as it is written.
var toldElsewhere = map[string]string{
	"left_in_place.hangers.at": "over every bent is the only choice",
	"alignment.name":           "readLine asks for its text",
}

// keysOf maps the keys of a file to Type.Field; [] stands for any item of a list.
func keysOf(t reflect.Type, path string, out map[string]string) {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		if t.Kind() != reflect.Pointer {
			path += "[]"
		}
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || t.PkgPath() != reflect.TypeFor[job.Job]().PkgPath() {
		return
	}
	for i := range t.NumField() {
		f := t.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		key := strings.TrimPrefix(path+"."+name, ".")
		switch {
		case option == "inline":
			key = path
		case name == "" || name == "-":
			continue
		default:
			out[key] = t.Name() + "." + f.Name
		}
		keysOf(f.Type, key, out)
	}
}

// Every key of job and gear is read by code that works something out with it, or it
// stands in the list of those that nothing reads yet, which a result names.
func TestEveryKeyOfJobAndGearIsReadOrNamedAsNotReadYet(t *testing.T) {
	fset := token.NewFileSet()
	r := &reader{fset: fset, standard: importer.ForCompiler(fset, "source", nil), packages: map[string]*types.Package{}, fields: map[*types.Var]string{}, read: map[string]bool{}}
	if err := filepath.WalkDir("../..", func(path string, d os.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		rest := filepath.ToSlash(strings.TrimPrefix(path, "../../"))
		top, _, _ := strings.Cut(rest, "/")
		if !slices.Contains([]string{"..", "../..", "model", "clearance", "export", "cmd"}, top) {
			return filepath.SkipDir
		}
		if goFiles, _ := filepath.Glob(path + "/*.go"); len(goFiles) > 0 {
			_, err = r.Import("boxwalk/" + rest)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	keys := map[string]string{}
	keysOf(reflect.TypeFor[job.Job](), "", keys)
	keysOf(reflect.TypeFor[job.Gear](), "", keys)
	if len(keys) < 150 || len(r.fields) < 150 {
		t.Fatalf("%d keys, %d fields", len(keys), len(r.fields))
	}
	for key, field := range keys {
		listed := slices.Contains(job.NotReadYet(), key)
		if !r.read[field] && !listed && toldElsewhere[key] == "" {
			t.Errorf("nothing reads %s (%s)", key, field)
		}
		if r.read[field] && listed {
			t.Errorf("%s (%s) is read, and listed as not read yet", key, field)
		}
	}
	for _, key := range job.NotReadYet() {
		if keys[key] == "" {
			t.Errorf("there is no key %s", key)
		}
	}
}
