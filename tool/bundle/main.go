// Command bundle builds what browsers load: every island's script, the one
// style made of all the parts' styles, and the fonts, each with a packed twin
// beside it. Run it in the tool folder after npm ci in the island folder; its
// output is committed, so that building fettle needs neither.
package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

const out = "internal/web/static/built"

// fonts are the cuts in use: source below node_modules, name below fonts/.
var fonts = [...][2]string{
	{"@fontsource/barlow/files/barlow-latin-400-normal.woff2", "barlow-400.woff2"},
	{"@fontsource/barlow/files/barlow-latin-600-normal.woff2", "barlow-600.woff2"},
	{"@fontsource/barlow-semi-condensed/files/barlow-semi-condensed-latin-500-normal.woff2", "barlow-semi-condensed-500.woff2"},
	{"@fontsource/barlow-semi-condensed/files/barlow-semi-condensed-latin-600-normal.woff2", "barlow-semi-condensed-600.woff2"},
	{"@fontsource/barlow/LICENSE", "barlow-licence.txt"},
}

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "bundle:", err)
		os.Exit(1)
	}
}

func run() error {
	if err := os.Chdir(".."); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Join(out, "fonts"), 0o755); err != nil {
		return err
	}
	if err := scripts(); err != nil {
		return err
	}
	if err := style(); err != nil {
		return err
	}
	for _, f := range fonts {
		data, err := os.ReadFile(filepath.Join("island/node_modules", f[0]))
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(out, "fonts", f[1]), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// scripts bundles each island/NAME/main.ts into NAME.js.
func scripts() error {
	mains, err := filepath.Glob("island/*/main.ts")
	if err != nil {
		return err
	}
	slices.Sort(mains)
	for _, m := range mains {
		name := filepath.Base(filepath.Dir(m)) + ".js"
		res := api.Build(api.BuildOptions{
			EntryPoints: []string{m}, Bundle: true, Format: api.FormatESModule, Target: api.ES2022,
			MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true, Charset: api.CharsetUTF8,
			LegalComments: api.LegalCommentsNone,
		})
		if len(res.Errors) > 0 {
			return fmt.Errorf("%s: %s", m, res.Errors[0].Text)
		}
		if err := put(name, res.OutputFiles[0].Contents); err != nil {
			return err
		}
	}
	return nil
}

// styles are read in this order, so that a later one may rely on an earlier.
var styles = [...]string{
	"internal/web/style/*.css", "internal/web/ui/*/*.css", "internal/web/*/*.css",
	"internal/place/*/*.css", "internal/web/style/print/*.css",
}

func style() error {
	var all bytes.Buffer
	seen := map[string]bool{}
	for _, pattern := range styles {
		files, err := filepath.Glob(pattern)
		if err != nil {
			return err
		}
		slices.Sort(files)
		for _, f := range files {
			if seen[f] {
				continue
			}
			seen[f] = true
			data, err := os.ReadFile(f)
			if err != nil {
				return err
			}
			all.Write(data)
			all.WriteByte('\n')
		}
	}
	res := api.Transform(all.String(), api.TransformOptions{
		Loader: api.LoaderCSS, MinifyWhitespace: true, MinifySyntax: true, Target: api.ES2022,
	})
	if len(res.Errors) > 0 {
		return fmt.Errorf("style: %s at line %d", res.Errors[0].Text, res.Errors[0].Location.Line)
	}
	return put("fettle.css", res.Code)
}

// put writes a file and its packed twin, and says how large they are.
func put(name string, data []byte) error {
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := z.Write(data); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	path := filepath.Join(out, name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return err
	}
	fmt.Printf("%-24s %7d bytes, %6d packed\n", strings.TrimPrefix(path, out+"/"), len(data), packed.Len())
	return os.WriteFile(path+".gz", packed.Bytes(), 0o644)
}
