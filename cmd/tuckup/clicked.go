package main

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/inconshreveable/mousetrap"
	"github.com/mattn/go-isatty"
	"github.com/spf13/cobra"
)

// desktop is "yes" in the program that Windows starts without a console: -ldflags "-X main.desktop=yes -H=windowsgui".
var desktop string

// startedMark is set in the environment of a program that one opened by a double-click starts in its place.
const startedMark = "TUCKUP_STARTED"

// start is how the program was started, as far as the machine shows it.
type start struct {
	system   string // as runtime.GOOS
	desktop  bool   // it is the program without a console
	explorer bool   // Windows: opened in its folder
	bundled  bool   // macOS: it lies in an app folder
	screen   bool   // elsewhere: there is a screen to open windows on
	terminal bool   // somebody types into it, or reads it in a terminal
	fed      bool   // something is piped or read into it
	read     bool   // what it writes goes into a pipe
}

// clicked reports whether the program was opened by a double-click. Whoever typed its name, or a script that ran it, is not
// surprised by a browser.
func (s start) clicked() bool {
	switch {
	case s.desktop || s.explorer:
		return true
	case s.terminal || s.fed || s.read:
		return false
	case s.system == "windows":
		return false
	case s.system == "darwin":
		return s.bundled
	}
	return s.screen
}

// started is how this program was started.
func started() start {
	path, err := os.Executable()
	s := start{
		system: runtime.GOOS, desktop: desktop == "yes", explorer: mousetrap.StartedByExplorer(),
		bundled: err == nil && strings.Contains(path, ".app/Contents/MacOS/"),
		screen:  os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != "",
	}
	for _, f := range []*os.File{os.Stdin, os.Stdout, os.Stderr} {
		s.terminal = s.terminal || isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd())
	}
	if in, err := os.Stdin.Stat(); err == nil {
		s.fed = in.Mode()&(fs.ModeDevice|fs.ModeSocket) == 0 // a file or a pipe, and not the null device
	}
	if out, err := os.Stdout.Stat(); err == nil {
		s.read = out.Mode()&fs.ModeNamedPipe != 0
	}
	return s
}

// fiveLines are what the program says in a terminal when it is asked for nothing.
const fiveLines = `tuckup plans the coat work of your string: which dog, which areas, how much to pull, week by week.
  tuckup open           your book in the browser: the place to begin, and to work in
  tuckup plan --demo    the week of a made-up string, printed here
  tuckup import FILE    dogs and shows from a kennel file, a table or a calendar, then: tuckup plan
  tuckup help           all commands; tuckup help coat, shows or rolling: how a plan thinks
`

// alone is the program without a command.
func (a *app) alone(c *cobra.Command) error {
	s := a.started()
	if !s.clicked() {
		_, err := fmt.Fprint(a.out, fiveLines)
		return err
	}
	if s.system == "darwin" && os.Getenv(startedMark) == "" {
		// macOS opens an app that is open already by bringing it to the front. So the app ends at once, and the desk goes on.
		return startAgain()
	}
	if !s.explorer { // nobody reads what is written, and on Windows it can't be
		a.out, a.err = io.Discard, io.Discard
	}
	open := a.openCommand()
	open.SetContext(c.Context())
	err := open.RunE(open, nil)
	if err != nil {
		var said bytes.Buffer
		speaker := *a
		speaker.err = &said
		speaker.report(err)
		a.tellOnAPage(said.String())
	}
	return err
}

// startAgain starts this program once more, on its own.
func startAgain() error {
	path, err := os.Executable()
	if err != nil {
		return err
	}
	again := exec.Command(path)
	again.Env = append(os.Environ(), startedMark+"=yes")
	again.SysProcAttr = apart()
	return again.Start()
}

// saidPage is what could not be said in a terminal.
var saidPage = template.Must(template.New("said").Parse(`<!DOCTYPE html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The desk is not open</title>
<style>body { font: 18px/1.5 system-ui, sans-serif; max-width: 40em; margin: 3em auto; padding: 0 1em } pre { white-space: pre-wrap; font: inherit }</style>
<h1>The desk is not open</h1>
<pre>{{.}}</pre>
<p>What is in your book stays as it is.</p>
</html>
`))

// tellOnAPage shows what was said in the browser: after a double-click there is no terminal to read it in.
func (a *app) tellOnAPage(said string) {
	dir, err := os.MkdirTemp("", "tuckup-said-*")
	if err != nil {
		return
	}
	path := filepath.Join(dir, "tuckup.html") // it stays: nobody knows when it was read; the folder is for what may go
	var page bytes.Buffer
	if saidPage.Execute(&page, said) != nil || os.WriteFile(path, page.Bytes(), 0o600) != nil {
		return
	}
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(path)}
	if !strings.HasPrefix(address.Path, "/") {
		address.Path = "/" + address.Path // C:/...
	}
	a.browse(address.String()) //nolint:errcheck // there is nobody left to say it to
}
