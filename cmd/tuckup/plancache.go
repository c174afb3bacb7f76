package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/planned"
)

// mostKept is how many plans the cache folder keeps, those that were used last.
const mostKept = 20

// planOf is the plan of the kennel: one that was made of the same before and kept, else a new one. Only a plan whose search came to its
// end is kept. What can't be read from the cache folder, or not written there, is as if it had none.
func (a *app) planOf(ctx context.Context, k kennel.Kennel, pats kennel.Patterns, opt optimize.Options) (optimize.Result, error) {
	opt.On = cmp.Or(opt.On, k.PlanFrom)
	c := cached(k, pats, opt)
	if ctx.Err() == nil {
		if r, ok := c.read(); ok {
			_ = os.Chtimes(c.file, time.Time{}, a.now()) // it was used; where that can't be noted it goes sooner
			r.Patterns, r.Options = pats, opt.Still()
			a.log.Debug().Str("file", c.file).Msg("planned before")
			return r, nil
		}
	}
	r, err := optimize.Plan(ctx, k, pats, opt)
	if err == nil && ctx.Err() == nil && !r.Season.Cut && opt.TimeLimit == 0 {
		if err := c.write(r); err != nil {
			a.log.Debug().Err(err).Msg("the plan could not be kept")
		}
	}
	return r, err
}

// keptPlan is a place in the cache folder: its file, and the line that the file begins with. No file is no place.
type keptPlan struct{ file, head string }

// cached is where a plan is kept.
func cached(k kennel.Kennel, pats kennel.Patterns, opt optimize.Options) keptPlan {
	dir, err := cacheFolder()
	if err != nil {
		return keptPlan{}
	}
	asked, err := planned.Asked(k, pats, opt)
	if err != nil {
		return keptPlan{}
	}
	return keptPlan{filepath.Join(dir, "tuckup", "plans", asked), fmt.Sprintf("%s %s\n", asked, thisBuild())}
}

// cacheFolder is the user's folder for what can be made again: XDG_CACHE_HOME where it is set (XDG base directories), else what the system
// has for it.
func cacheFolder() (string, error) {
	if dir := os.Getenv("XDG_CACHE_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	return os.UserCacheDir()
}

// thisBuild tells this program from another version of it, which may plan otherwise: by its version, and by the file that it is.
var thisBuild = sync.OnceValue(func() string {
	version := "unknown"
	if info, ok := debug.ReadBuildInfo(); ok {
		version = cmp.Or(info.Main.Version, version)
	}
	if file, err := os.Executable(); err == nil {
		if about, err := os.Stat(file); err == nil {
			version += fmt.Sprintf(" %d %d", about.Size(), about.ModTime().UnixNano())
		}
	}
	return version
})

func (c keptPlan) read() (r optimize.Result, ok bool) {
	if c.file == "" {
		return r, false
	}
	data, err := os.ReadFile(c.file)
	record, ours := bytes.CutPrefix(data, []byte(c.head))
	if err != nil || !ours {
		return r, false
	}
	r, err = planned.Unpack(record)
	return r, err == nil
}

// write keeps the plan: whole or not at all, whoever else writes it meanwhile.
func (c keptPlan) write(r optimize.Result) error {
	if c.file == "" {
		return nil
	}
	record, err := r.Pack()
	if err != nil {
		return err
	}
	dir := filepath.Dir(c.file)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	temp, err := os.CreateTemp(dir, ".writing-*")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name()) // where it has its name by then, this removes nothing
	_, err = temp.Write(append([]byte(c.head), record...))
	if e := temp.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = os.Rename(temp.Name(), c.file)
	}
	if err == nil {
		forgetOldest(dir)
	}
	return err
}

// forgetOldest removes all plans but those that were used last, and what writing that was cut short has left.
func forgetOldest(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	type kept struct {
		file string
		age  int64
	}
	var all []kept
	for _, e := range entries {
		if about, err := e.Info(); err == nil && about.Mode().IsRegular() {
			all = append(all, kept{filepath.Join(dir, e.Name()), -about.ModTime().UnixNano()})
		}
	}
	slices.SortFunc(all, func(x, y kept) int { return cmp.Or(cmp.Compare(x.age, y.age), cmp.Compare(x.file, y.file)) })
	for _, k := range all[min(mostKept, len(all)):] {
		_ = os.Remove(k.file)
	}
}
