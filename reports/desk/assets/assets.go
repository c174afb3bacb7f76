// Package assets holds the files that every page of the desk uses: style, script and the picture of the tab. They are
// part of the program, so that a page asks no other machine for anything.
package assets

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"
)

//go:embed pico.classless.min.css desk.css board.js desk.js files.js send.js table.js worker.js zone.js icon.svg app.webmanifest
var files embed.FS

// Prefix is what the paths of all files begin with.
const Prefix = "/assets/"

// file is a file as it is sent.
type file struct {
	content []byte
	kind    string // media type
	path    string // with the hash of the content in it, so that a browser may keep it for ever
}

var all = load()

func load() map[string]file {
	kinds := map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".webmanifest": "application/manifest+json"}
	out := map[string]file{}
	entries, err := files.ReadDir(".")
	if err != nil {
		panic(err) // the files are part of the program
	}
	slices.SortStableFunc(entries, func(a, b fs.DirEntry) int { return rank(a.Name()) - rank(b.Name()) })
	for _, e := range entries {
		content, err := files.ReadFile(e.Name())
		if err != nil {
			panic(err)
		}
		if e.Name() == manifest {
			content = bytes.ReplaceAll(content, []byte("ICON"), []byte(out["icon.svg"].path))
		}
		sum := sha256.Sum256(content)
		out[e.Name()] = file{content, kinds[path.Ext(e.Name())], Prefix + hex.EncodeToString(sum[:8]) + "/" + e.Name()}
	}
	return out
}

// manifest says what the desk is called and looks like where it is installed; it names the icon's path.
const manifest = "app.webmanifest"

func rank(name string) int {
	if name == manifest {
		return 1
	}
	return 0
}

// Worker sends the script that keeps pages while the desk does not answer. It lies at the top, for all pages are in its care.
func Worker() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f := all["worker.js"]
		w.Header().Set("Content-Type", f.kind)
		w.Header().Set("Cache-Control", "no-cache")
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(f.content))
	})
}

// WorkerPath is where the worker is fetched.
const WorkerPath = "/worker.js"

// Path is where the file with the name is fetched, like /assets/0123456789abcdef/desk.css; "" when there is none.
func Path(name string) string {
	return all[name].path
}

// Style is the part of a page's head that brings in style and the picture of the tab: of a page without scripts.
func Style() template.HTML {
	var b strings.Builder
	for _, style := range []string{"pico.classless.min.css", "desk.css"} {
		b.WriteString(`<link rel="stylesheet" href="` + Path(style) + `">` + "\n")
	}
	b.WriteString(`<link rel="icon" type="image/svg+xml" href="` + Path("icon.svg") + `">` + "\n")
	return template.HTML(b.String()) //nolint:gosec // made of constants of this package only
}

// Head is the part of a page's head that brings in style, scripts and the picture of the tab.
func Head() template.HTML {
	var b strings.Builder
	b.WriteString(string(Style()))
	b.WriteString(`<link rel="manifest" href="` + Path(manifest) + `">` + "\n")
	for _, script := range []string{"desk.js", "table.js", "files.js", "send.js", "board.js"} {
		b.WriteString(`<script defer src="` + Path(script) + `"></script>` + "\n")
	}
	return template.HTML(b.String()) //nolint:gosec // made of constants of this package only
}

// Handler sends the files. A path whose hash is not that of the content is not found.
func Handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f, ok := all[path.Base(r.URL.Path)]
		if !ok || f.path != r.URL.Path {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		h.Set("Content-Type", f.kind)
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(f.content))
	})
}
