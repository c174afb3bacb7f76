package main

import (
	"errors"
	"maps"
	"slices"
	"sync"

	"github.com/spf13/cobra"

	"tuckup/config"
	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports"
)

// liveSettings are the settings that an open desk works with. They change when a page changes them. Its methods may be called from
// several goroutines.
type liveSettings struct {
	mu    sync.Mutex
	opt   optimize.Options
	terms reports.Terms
}

// readLive reads the settings as they are.
func (a *app) readLive(c *cobra.Command) (*liveSettings, error) {
	opt, err := a.options(c)
	if err != nil {
		return nil, err
	}
	terms, err := a.terms(c, accountFlags{})
	return &liveSettings{opt: opt, terms: terms}, err
}

func (s *liveSettings) options() optimize.Options {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.opt
}

func (s *liveSettings) accountTerms() reports.Terms {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.terms
}

// settings are the settings as they are now.
func (m bookDesk) settings() ([]reports.SettingRow, error) {
	values, err := m.a.settings(m.c)
	if err != nil {
		return nil, err
	}
	return rows(values), nil
}

// setSettings writes settings into the settings file, and works with them from then on.
func (m bookDesk) setSettings(given map[string]string) (wrong map[string]string, err error) {
	known, _ := knownSettings()
	wrong = map[string]string{}
	for _, key := range slices.Sorted(maps.Keys(given)) {
		i := slices.IndexFunc(known, func(s config.Setting) bool { return s.Key == key })
		if i < 0 || given[key] == "" {
			continue
		}
		var bad *config.Error
		if _, err := known[i].Read(given[key], ""); errors.As(err, &bad) {
			wrong[key] = bad.Wrong
		}
	}
	if len(wrong) > 0 {
		return wrong, nil
	}
	if err := config.Save(known, m.a.flags.config, given); err != nil {
		var bad *config.Error
		if errors.As(err, &bad) {
			err = &kennel.InputError{What: bad.Error(), Try: bad.Try}
		}
		return nil, err
	}
	now, err := m.a.readLive(m.c)
	if err != nil {
		return nil, err
	}
	m.live.mu.Lock()
	defer m.live.mu.Unlock()
	m.live.opt, m.live.terms = now.opt, now.terms
	return nil, nil
}
