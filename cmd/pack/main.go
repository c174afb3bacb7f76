// Command pack makes a release: for each system an archive with the program, the licences of all that is in it, and how to start it, and one
// file with the sums of all archives. Windows gets the program twice, with a console and without; macOS gets an app folder. Each archive is opened
// again and looked through before it counts.
//
//	go run ./cmd/pack -version 2.0.0
//	go run ./cmd/pack -version 2.0.0 -only linux/amd64
package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

func main() {
	var r release
	flag.StringVar(&r.version, "version", "", "version of the release, like 2.0.0 or 2.1.0-rc1")
	flag.StringVar(&r.out, "out", "release", "folder to write to")
	only := flag.String("only", "", "one system, like linux/amd64; empty: all of them")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := r.pack(ctx, *only)
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

// release is what is made.
type release struct {
	version, out string
	licences     []byte
}

// targets are the systems that there is an archive for.
func targets() (all []target) {
	for _, system := range systems {
		for _, arch := range []string{"amd64", "arm64"} {
			all = append(all, target{system, arch})
		}
	}
	return all
}

// target is a system and its architecture, as Go names them.
type target struct{ system, arch string }

func (t target) String() string { return t.system + "/" + t.arch }

var versions = regexp.MustCompile(`^\d+\.\d+\.\d+(-[0-9A-Za-z.]+)?$`)

// pack makes the archives. It runs in the folder of the module.
func (r *release) pack(ctx context.Context, only string) (err error) {
	if !versions.MatchString(r.version) {
		return fmt.Errorf("-version %q is not a version\nTry: -version 2.0.0", r.version)
	}
	wanted := slices.DeleteFunc(targets(), func(t target) bool { return only != "" && t.String() != only })
	if len(wanted) == 0 {
		return fmt.Errorf("-only %q is not a system that is packed\nTry: one of %v", only, targets())
	}
	if r.licences, err = licencesOf(ctx, program); err != nil {
		return err
	}
	if err := os.MkdirAll(r.out, 0o755); err != nil {
		return err
	}
	var sums strings.Builder
	for _, t := range wanted {
		name, err := r.archive(ctx, t)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		data, err := os.ReadFile(filepath.Join(r.out, name))
		if err != nil {
			return err
		}
		if err := r.check(t, data); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), name)
		fmt.Printf("%s, %.1f MB\n", name, float64(len(data))/1e6)
	}
	return os.WriteFile(filepath.Join(r.out, "SHA256SUMS.txt"), []byte(sums.String()), 0o644)
}

// program is what is released.
const program = "./cmd/tuckup"

// archive builds the program for a system and packs it. It returns the archive's name.
func (r *release) archive(ctx context.Context, t target) (name string, err error) {
	dir, err := os.MkdirTemp("", "tuckup-pack-*")
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	if t.system == "windows" {
		icon, err := windowsIcon(icon, t.arch)
		if err != nil {
			return "", err
		}
		// The go command links a file of this name into the program of that system.
		path := filepath.Join("cmd", "tuckup", "icon_windows_"+t.arch+".syso")
		if err := os.WriteFile(path, icon, 0o644); err != nil {
			return "", err
		}
		defer func() { err = errors.Join(err, os.Remove(path)) }()
	}
	files, err := r.files(ctx, t, dir)
	if err != nil {
		return "", err
	}
	base := r.base(t)
	name = base + t.ending()
	out, err := os.Create(filepath.Join(r.out, name))
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	return name, write(out, t.ending(), base, files)
}

// base is the name of an archive without its ending, and of the folder in it.
func (r *release) base(t target) string {
	system := t.system
	if system == "darwin" {
		system = "macos"
	}
	return "tuckup-" + r.version + "-" + system + "-" + t.arch
}

// ending is how the archive's name ends: what the system opens by a double-click.
func (t target) ending() string {
	if t.system == "linux" {
		return ".tar.gz"
	}
	return ".zip"
}

// file is one file of an archive.
type file struct {
	name string
	data []byte
	runs bool // it is a program
}

// The programs in an archive.
const (
	windowsProgram = "tuckup.exe"
	windowsDesk    = "tuckup-desk.exe" // without a console
	macProgram     = "tuckup.app/Contents/MacOS/tuckup"
	linuxProgram   = "tuckup"
)

// files are what the archive of a system holds. Programs are built in the folder.
func (r *release) files(ctx context.Context, t target, dir string) (files []file, err error) {
	build := func(name, flags string) error {
		path := filepath.Join(dir, "program")
		_, err := output(ctx, []string{"GOOS=" + t.system, "GOARCH=" + t.arch, "CGO_ENABLED=0"}, "build", "-trimpath", "-o", path,
			"-ldflags", "-s -w -X main.release="+r.version+flags, program)
		if err != nil {
			return err
		}
		data, err := os.ReadFile(path)
		files = append(files, file{name, data, true})
		return err
	}
	switch t.system {
	case "windows":
		err = errors.Join(build(windowsProgram, ""), build(windowsDesk, " -X main.desktop=yes -H=windowsgui"))
	case "darwin":
		err = build(macProgram, "")
		files = append(files,
			file{"tuckup.app/Contents/Info.plist", []byte(plist(r.version)), false},
			file{"tuckup.app/Contents/Resources/tuckup.icns", icns(icon), false})
	default:
		err = build(linuxProgram, "")
	}
	if err != nil {
		return nil, err
	}
	for _, x := range []struct{ name, path string }{{"LICENSE.txt", "LICENSE"}, {"READ-ME-FIRST.txt", readMeFirst}} {
		data, err := os.ReadFile(x.path)
		if err != nil {
			return nil, err
		}
		files = append(files, file{x.name, data, false})
	}
	return append(files, file{"THIRD-PARTY.txt", r.licences, false}), nil
}

// readMeFirst says how to start the program, and what systems say of it.
const readMeFirst = "cmd/pack/README.md"
