package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"tuckup/kennel"
)

func (a *app) rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "tuckup",
		Short: "Plan the coat work of a string of hard-coated show dogs",
		Long: "tuckup plans the coat work of a string of hard-coated show dogs: which dog, which areas and how much of them " +
			"to pull each week, within the hours you have, so that every dog is right on its show days and stays in coat " +
			"between them.",
		Example:       "  tuckup plan --demo\n  tuckup plan --kennel thornfield.yaml\n  tuckup sheet --kennel thornfield.yaml",
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noCommand,
		RunE:          func(c *cobra.Command, _ []string) error { return a.alone(c) },
		PersistentPreRunE: func(*cobra.Command, []string) error {
			return a.openLog()
		},
	}
	root.SetVersionTemplate("{{.Version}}")
	root.Flags().Bool("version", false, "which version this is, and what it was built from")
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().StringVar(&a.flags.config, "config", "", "settings file (default: config.yaml in the folder tuckup of your configuration folder)")
	root.PersistentFlags().StringVar(&a.flags.log, "log", "warn", "how much to log on standard error: "+strings.Join(logLevels, ", "))
	fixedValues(root, "log", logLevels)
	root.AddCommand(
		a.planCommand(), a.readinessCommand(), a.workloadCommand(), a.reportCommand(), a.accountCommand(), a.sheetCommand(), a.patternCommand(), a.modelCommand(),
		a.settingsCommand(), a.calendarCommand(), a.dogCommand(), a.showCommand(), a.hoursCommand(), a.workCommand(), a.measureCommand(),
		a.coatCommand(), a.importCommand(), a.exportCommand(), a.undoCommand(), a.historyCommand(), a.bookCommand(), a.tryCommand(), a.replanCommand(), a.openCommand(), a.serveCommand(), a.learnCommand(),
	)
	root.SetHelpCommand(a.helpCommand())
	return root
}

var logLevels = []string{"debug", "info", "warn", "error", "off"}

// openLog starts the log on standard error.
func (a *app) openLog() error {
	level := a.flags.log
	if near, ok := oneOf(level, logLevels); !ok {
		return usage(near, "--log %q is not a level of the log", level)
	}
	if level == "off" {
		level = "disabled"
	}
	l, err := zerolog.ParseLevel(level)
	if err != nil {
		return err
	}
	a.log = zerolog.New(zerolog.ConsoleWriter{
		Out: a.err, NoColor: !colourful(a.err), PartsExclude: []string{zerolog.TimestampFieldName},
	}).Level(l)
	return nil
}

// noCommand refuses a word that is no command, and names the nearest.
func noCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, s := range c.Commands() {
		if s.IsAvailableCommand() {
			names = append(names, s.Name())
		}
	}
	near := kennel.Nearest(args[0], names, 1)[0]
	return usage(c.CommandPath()+" "+near+", or "+c.CommandPath()+" --help for all", "%q is not a command of %s", args[0], c.CommandPath())
}

// noWords refuses words behind a command that takes none.
func noWords(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	try := c.CommandPath() + " --help"
	for _, x := range []struct{ ending, flag string }{{".yaml", "kennel"}, {".yml", "kennel"}, {".txt", "kennel"}, {".db", "book"}} {
		if strings.EqualFold(filepath.Ext(args[0]), x.ending) && c.Flags().Lookup(x.flag) != nil {
			try = c.CommandPath() + " --" + x.flag + " " + args[0]
		}
	}
	return usage(try, "%s takes no word like %q", c.CommandPath(), args[0])
}

// flagError turns the flag library's errors into a sentence with something to try.
func flagError(c *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		value   *pflag.InvalidValueError
		missing *pflag.ValueRequiredError
		input   *kennel.InputError
	)
	help := c.CommandPath() + " --help"
	switch {
	case errors.As(err, &unknown):
		var names []string
		c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		near := kennel.Nearest(unknown.GetSpecifiedName(), names, 1)[0]
		help = "--" + near + ", or " + help + " for all"
		dashes := "--"
		if unknown.GetSpecifiedShortnames() != "" {
			dashes = "-"
		}
		return usage(help, "%s has no flag %s%s", c.CommandPath(), dashes, unknown.GetSpecifiedName())
	case errors.As(err, &value) && errors.As(err, &input):
		return usage("--"+value.GetFlag().Name+" with "+input.Try, "--%s %q %s", value.GetFlag().Name, value.GetValue(), input.What)
	case errors.As(err, &value):
		return usage("--"+value.GetFlag().Name+" with a "+kindWords(value.GetFlag()), "--%s %q is not a %s",
			value.GetFlag().Name, value.GetValue(), kindWords(value.GetFlag()))
	case errors.As(err, &missing):
		return usage("--"+missing.GetSpecifiedName()+" with a value", "--%s needs a value", missing.GetSpecifiedName())
	}
	return usage(help, "%s", strings.Join(strings.Fields(err.Error()), " "))
}

func kindWords(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "uint64":
		return "whole number from 0"
	case "float64":
		return "number"
	case "bool":
		return "true or false"
	}
	return "value"
}

// oneOf reports whether word is one of choices; if not, it returns what to try.
func oneOf(word string, choices []string) (try string, ok bool) {
	for _, c := range choices {
		if c == word {
			return "", true
		}
	}
	return "one of " + strings.Join(choices, ", "), false
}

// fixedValues lets the shell complete a flag from a list.
func fixedValues(c *cobra.Command, flag string, values []string) {
	err := c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
	if err != nil {
		panic(fmt.Sprintf("flag %s: %v", flag, err)) // the flag was declared one line before
	}
}
