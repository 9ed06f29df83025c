package arch

import (
	"bytes"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

const (
	longestFile = 500
	longestFunc = 100
)

// sources returns our own Go files, generated ones left out.
func sources(t *testing.T) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := d.Name()
		if d.IsDir() && (name == "node_modules" || name == "testdata" || strings.HasPrefix(name, ".") && len(name) > 2) {
			return filepath.SkipDir
		}
		if strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_templ.go") {
			list = append(list, path)
		}
		return nil
	})
	if err != nil || len(list) < 100 {
		t.Fatalf("%d sources, %v", len(list), err)
	}
	return list
}

func TestFormatAndLength(t *testing.T) {
	for _, path := range sources(t) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		neat, err := format.Source(text)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		if !bytes.Equal(neat, text) {
			t.Errorf("%s: gofmt would change it", path)
		}
		if n := bytes.Count(text, []byte("\n")); n > longestFile {
			t.Errorf("%s: %d lines, at most %d: would two rooms be clearer?", path, n, longestFile)
		}
		checkFile(t, path, text)
	}
}

// checkFile holds functions to a screen and exports to a comment.
func checkFile(t *testing.T, path string, text []byte) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, text, parser.ParseComments)
	if err != nil {
		t.Errorf("%s: %v", path, err)
		return
	}
	for _, d := range f.Decls {
		lines := set.Position(d.End()).Line - set.Position(d.Pos()).Line
		switch d := d.(type) {
		case *ast.FuncDecl:
			if lines > longestFunc {
				t.Errorf("%s: %s has %d lines, at most %d", path, d.Name, lines, longestFunc)
			}
			if d.Doc == nil && d.Name.IsExported() && exportedReceiver(d) && !strings.HasSuffix(path, "_test.go") {
				t.Errorf("%s: %s is exported and says nothing of itself", path, d.Name)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				if ts, ok := s.(*ast.TypeSpec); ok && ts.Name.IsExported() && d.Doc == nil && ts.Doc == nil && !strings.HasSuffix(path, "_test.go") {
					t.Errorf("%s: type %s says nothing of itself", path, ts.Name)
				}
			}
		}
	}
}

func exportedReceiver(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return true
	}
	expr := d.Recv.List[0].Type
	if star, ok := expr.(*ast.StarExpr); ok {
		expr = star.X
	}
	id, ok := expr.(*ast.Ident)
	return ok && id.IsExported()
}

func TestPackagesSayWhatTheyAre(t *testing.T) {
	said := map[string]bool{}
	for _, path := range sources(t) {
		if strings.HasSuffix(path, "_test.go") && !strings.Contains(path, "/test/") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.PackageClauseOnly|parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.Dir(path)
		said[dir] = said[dir] || f.Doc != nil
	}
	for dir, ok := range said {
		if !ok {
			t.Errorf("%s: no package comment", dir)
		}
	}
}

// TestLinters runs vet and staticcheck over everything.
func TestLinters(t *testing.T) {
	if testing.Short() {
		t.Skip("linters take half a minute: run without -short")
	}
	for _, args := range [][]string{
		{"vet", "./..."},
		{"tool", "-modfile=tool/go.mod", "staticcheck", "./..."},
	} {
		cmd := exec.Command("go", args...)
		cmd.Dir = "../.."
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("go %s: %v\n%s", strings.Join(args, " "), err, out)
		}
	}
}
