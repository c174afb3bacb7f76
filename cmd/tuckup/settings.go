package main

import (
	"io"

	"github.com/spf13/cobra"

	"tuckup/config"
	"tuckup/optimize"
	"tuckup/reports"
)

// binding ties a setting to the option of the plan that it sets. Defaults are the plan's own.
type binding struct {
	config.Setting
	get func(optimize.Options) float64
	set func(*optimize.Options, float64)
}

// mostSeed is the largest whole number that a float64 carries exactly.
const mostSeed = 1 << 53

// bindings lists every setting.
func bindings() []binding {
	return []binding{
		{
			config.Setting{Key: "weeks", Unit: "weeks", Low: 4, High: 104, Whole: true, About: "length of the season where the kennel names none"},
			func(o optimize.Options) float64 { return float64(o.Weeks) },
			func(o *optimize.Options, x float64) { setNumber(&o.Weeks, x) },
		},
		{
			config.Setting{Key: "standing", Unit: "points a week", Low: 0, High: 1, About: "worth of a dog that is fully ready in a week without a show"},
			func(o optimize.Options) float64 { return o.Standing },
			func(o *optimize.Options, x float64) { o.Standing = x },
		},
		{
			config.Setting{Key: "balance", Unit: "points a dog", Low: 0, High: 10, About: "worth of the least ready dog's mean show readiness; 0 plans the sum only"},
			func(o optimize.Options) float64 { return o.Balance },
			func(o *optimize.Options, x float64) { o.Balance = x },
		},
		{
			config.Setting{Key: "session_cost", Unit: "points a session", Low: 0, High: 1, About: "what a session costs beside its minutes"},
			func(o optimize.Options) float64 { return o.SessionCost },
			func(o *optimize.Options, x float64) { o.SessionCost = x },
		},
		{
			config.Setting{Key: "stay", Unit: "points a session", Low: 0, High: 10, About: "cost of leaving or adding a session in the next 4 weeks, and of moving shares, when a plan is remade"},
			func(o optimize.Options) float64 { return o.Stay },
			func(o *optimize.Options, x float64) { o.Stay = x },
		},
		{
			config.Setting{Key: "pick", Unit: "times", Low: 1, High: 5, About: "how many times as long as dead hair takes living hair, which is picked hair by hair"},
			func(o optimize.Options) float64 { return o.Pick },
			func(o *optimize.Options, x float64) { o.Pick = x },
		},
		{
			config.Setting{Key: "strip_hours", Unit: "hours a day", Low: 0.5, High: 12, About: "most hours of pulling a day where a pair of hands names none"},
			func(o optimize.Options) float64 { return float64(o.StripHours) },
			func(o *optimize.Options, x float64) { setNumber(&o.StripHours, x) },
		},
		{
			config.Setting{Key: "puppy_table", Unit: "minutes", Low: 10, High: 180, About: "longest session of a dog under 12 months"},
			func(o optimize.Options) float64 { return float64(o.PuppyTable) },
			func(o *optimize.Options, x float64) { setNumber(&o.PuppyTable, x) },
		},
		{
			config.Setting{Key: "crumb_share", Unit: "share of an area", Low: 0, High: 0.25, About: "a touch is worth making from this share"},
			func(o optimize.Options) float64 { return float64(o.CrumbShare) },
			func(o *optimize.Options, x float64) { setNumber(&o.CrumbShare, x) },
		},
		{
			config.Setting{Key: "crumb_time", Unit: "minutes", Low: 0, High: 30, About: "a touch is worth making from this many minutes, too"},
			func(o optimize.Options) float64 { return float64(o.CrumbTime) },
			func(o *optimize.Options, x float64) { setNumber(&o.CrumbTime, x) },
		},
		{
			config.Setting{Key: "days", Unit: "days", Low: 1, High: 14, Whole: true, About: "days laid out by day and hands; they run on to the end of the last one's week"},
			func(o optimize.Options) float64 { return float64(o.Days) },
			func(o *optimize.Options, x float64) { setNumber(&o.Days, x) },
		},
		{
			config.Setting{Key: "day_start", Unit: "hours", Low: 0, High: 20, About: "when a day's work begins, hours after midnight; earlier where it would not end by 21:00"},
			func(o optimize.Options) float64 { return float64(o.DayStart) },
			func(o *optimize.Options, x float64) { setNumber(&o.DayStart, x) },
		},
		{
			config.Setting{Key: "free_days", Unit: "days", Low: 0, High: 6, Whole: true, About: "least free days between two jacket sessions on one dog"},
			func(o optimize.Options) float64 { return float64(o.FreeDays) },
			func(o *optimize.Options, x float64) { setNumber(&o.FreeDays, x) },
		},
		{
			config.Setting{Key: "bath_time", Unit: "minutes", Low: 0, High: 120, About: "a lifting bath; 0 plans none"},
			func(o optimize.Options) float64 { return float64(o.BathTime) },
			func(o *optimize.Options, x float64) { setNumber(&o.BathTime, x) },
		},
		{
			config.Setting{Key: "growth_sd", Unit: "part", Low: 0, High: 0.5, About: "how unsure a dog's growth is without records of its own: relative standard deviation"},
			func(o optimize.Options) float64 { return o.GrowthSD },
			func(o *optimize.Options, x float64) { o.GrowthSD = x },
		},
		{
			config.Setting{Key: "missed", Unit: "part", Low: 0, High: mostMissed, About: "part of the sessions planned that are not done; a book's own records move it"},
			func(o optimize.Options) float64 { return o.Missed },
			func(o *optimize.Options, x float64) { o.Missed = x },
		},
		{
			config.Setting{Key: "seed", Unit: "number", Low: 0, High: mostSeed, Whole: true, About: "start of the search's random numbers; the same seed gives the same plan"},
			func(o optimize.Options) float64 { return float64(o.Seed) },
			func(o *optimize.Options, x float64) { o.Seed = uint64(x) },
		},
		{
			config.Setting{Key: "time_limit", Unit: "seconds", Low: 0, High: 86400, About: "longest search; 0 sets none"},
			func(o optimize.Options) float64 { return o.TimeLimit },
			func(o *optimize.Options, x float64) { o.TimeLimit = x },
		},
	}
}

// mostMissed is the most of a plan's sessions that may be missed for it to be a plan.
const mostMissed = 0.5

func setNumber[T ~int | ~float64](to *T, x float64) { *to = T(x) }

func (a *app) seedFlags(c *cobra.Command) {
	c.Flags().Uint64Var(&a.flags.seed, "seed", 0, "start of the search's random numbers")
	c.Flags().Float64Var(&a.flags.timeLimit, "time-limit", 0, "longest search in seconds; 0 sets none")
}

// knownSettings are all settings, and their defaults.
func knownSettings() (known []config.Setting, defaults map[string]float64) {
	standard := optimize.DefaultOptions()
	defaults = accountSettings()
	for _, b := range bindings() {
		known = append(known, b.Setting)
		defaults[b.Key] = b.get(standard)
	}
	return append(known, describedAccountSettings()...), defaults
}

// settings reads every setting: flags before the environment, the environment before the file.
func (a *app) settings(c *cobra.Command) (config.Values, error) {
	known, defaults := knownSettings()
	values, err := config.Load(known, defaults, a.flags.config)
	if err != nil {
		return nil, err
	}
	for _, name := range config.UnknownEnv(known) {
		a.log.Warn().Str("variable", name).Msg("no setting has this name; it changes nothing")
	}
	if c.Flags().Changed("seed") {
		if a.flags.seed > mostSeed {
			return nil, usage("--seed with a whole number from 0 to "+config.Number(mostSeed), "--seed %d is too large", a.flags.seed)
		}
		if err := values.Set("seed", float64(a.flags.seed), "--seed"); err != nil {
			return nil, err
		}
	}
	if c.Flags().Changed("time-limit") {
		if err := values.Set("time_limit", a.flags.timeLimit, "--time-limit"); err != nil {
			return nil, err
		}
	}
	return values, nil
}

// options are the settings as the plan takes them.
func (a *app) options(c *cobra.Command) (optimize.Options, error) {
	opt := optimize.DefaultOptions()
	values, err := a.settings(c)
	if err != nil {
		return opt, err
	}
	for _, b := range bindings() {
		b.set(&opt, values.Get(b.Key))
	}
	return opt, nil
}

func (a *app) settingsCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "settings",
		Short: "List each setting with its value, unit, range and where it came from",
		Long: "Settings come from the environment (TUCKUP_BALANCE sets balance), else from the settings file, else from the " +
			"defaults. The file is config.yaml in the folder tuckup of your configuration folder, or the one that --config names.",
		Example: "  tuckup settings\n  TUCKUP_BALANCE=1 tuckup settings\n  tuckup settings --config season.yaml --format json",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			values, err := a.settings(c)
			if err != nil {
				return err
			}
			list := rows(values)
			return a.write(writers{
				text: func(w io.Writer) error { return reports.Settings(w, list, a.look()) },
				json: func(w io.Writer) error { return reports.SettingsJSON(w, list) },
				csv:  func(w io.Writer) error { return reports.SettingsCSV(w, list) },
			})
		},
	}
	a.formatFlag(c)
	return c
}

func rows(values config.Values) []reports.SettingRow {
	list := make([]reports.SettingRow, 0, len(values))
	for _, v := range values {
		list = append(list, reports.SettingRow{
			Key: v.Key, Value: v.Number, Unit: v.Unit, Range: v.Range(), From: v.From, Env: v.Env(), About: v.About, Usual: v.Usual, Fixed: v.Fixed(),
		})
	}
	return list
}
