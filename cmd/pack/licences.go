package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// module is a module of which something is linked.
type module struct{ Path, Version, Dir string }

// systems are those that the program is built for.
var systems = []string{"windows", "darwin", "linux"}

var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|unlicense|patents)([.-].*)?$`)

// own is the module of the program itself; its licence goes beside this file.
const own = "tuckup"

// brought are files from elsewhere in the program that are no modules, each with its licence.
var brought = []struct{ what, licence string }{
	{"Pico CSS, the look of the pages", "reports/desk/assets/pico.LICENSE"},
}

// licencesOf is one text with the licence of Go, of each module that is linked into the package on any system, and of files from elsewhere. A
// module without one is an error: it could not be handed on.
func licencesOf(ctx context.Context, pkg string) ([]byte, error) {
	all, err := linked(ctx, pkg)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	b.WriteString("tuckup is made with the following. Each part is used under the licence below its name.\n")
	part := func(name string, files []string) error {
		fmt.Fprintf(&b, "\n%s\n%s\n", strings.Repeat("=", 78), name)
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				return err
			}
			fmt.Fprintf(&b, "%s\n%s\n", strings.Repeat("-", 78), bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
		}
		return nil
	}
	root, err := output(ctx, nil, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	if err := part("The Go programming language and its standard library", []string{filepath.Join(strings.TrimSpace(string(root)), "LICENSE")}); err != nil {
		return nil, err
	}
	for _, m := range all {
		files, err := licencesIn(m.Dir)
		if err != nil {
			return nil, err
		}
		if len(files) == 0 {
			return nil, fmt.Errorf("%s %s has no licence", m.Path, m.Version)
		}
		if err := part(m.Path+" "+m.Version, files); err != nil {
			return nil, err
		}
	}
	for _, x := range brought {
		if err := part(x.what, []string{x.licence}); err != nil {
			return nil, err
		}
	}
	return b.Bytes(), nil
}

// licencesIn are the files with licences and notices at the top of a module.
func licencesIn(dir string) (files []string, err error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		if !e.IsDir() && licenceFile.MatchString(e.Name()) && !strings.HasSuffix(e.Name(), ".go") {
			files = append(files, filepath.Join(dir, e.Name()))
		}
	}
	return files, nil
}

// linked are the modules of which a package is linked on any system, by path.
func linked(ctx context.Context, pkg string) (all []module, err error) {
	seen := map[string]bool{own: true}
	for _, system := range systems {
		data, err := output(ctx, []string{"GOOS=" + system, "GOARCH=arm64", "CGO_ENABLED=0"}, "list", "-deps", "-json=Module", pkg)
		if err != nil {
			return nil, err
		}
		for d := json.NewDecoder(bytes.NewReader(data)); ; {
			var p struct{ Module *module }
			if err := d.Decode(&p); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				return nil, err
			}
			if p.Module != nil && !seen[p.Module.Path] {
				seen[p.Module.Path] = true
				all = append(all, *p.Module)
			}
		}
	}
	slices.SortFunc(all, func(a, b module) int { return strings.Compare(a.Path, b.Path) })
	return all, nil
}

// output is what the go command prints.
func output(ctx context.Context, env []string, args ...string) ([]byte, error) {
	var said bytes.Buffer
	c := exec.CommandContext(ctx, "go", args...)
	c.Env, c.Stderr = append(os.Environ(), env...), &said
	data, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w: %s", strings.Join(args, " "), err, bytes.TrimSpace(said.Bytes()))
	}
	return data, nil
}
