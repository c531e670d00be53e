package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// app is what all commands share.
type app struct {
	console
	root  string
	quiet bool
}

// newRoot builds the command line. Only commands that work are in it.
func newRoot(c console) *cobra.Command {
	a := &app{console: c}
	root := &cobra.Command{
		Use:   "boxwalk",
		Short: "Does the form carrier reach, collapse, leave and advance?",
		Long: `boxwalk answers, before steel arrives on site, whether an inner form carrier fits
a cast-in-place box culvert: whether it reaches the section, in which order it
collapses without entering concrete or clashing, and what clearance is left.

A job file names what is built; a gear file names what the yard owns.
Exit codes: 0 all checks hold, 1 something fails or stays open, 4 only some were
asked for and those hold, which clears nothing, 2 the input is
wrong, 3 the tool failed.`,
		Example:           "  boxwalk check job.yaml",
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	root.SetIn(c.in)
	root.SetOut(c.out)
	root.SetErr(c.err)
	flags := root.PersistentFlags()
	flags.StringVar(&a.root, "root", ".", "folder that the gear file must lie in")
	flags.BoolVarP(&a.quiet, "quiet", "q", false, "show no progress")
	root.AddCommand(a.checkCommand(), a.verifyCommand(), a.explainCommand(), a.limitsCommand(), a.schemaCommand())
	root.AddCommand(a.outputCommands()...)
	root.AddCommand(a.exportCommand())
	root.AddCommand(a.versionCommand(), completionCommand())
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrong("%v\nSee: %s --help", err, c.CommandPath())
	})
	return root
}

// oneJob asks for exactly one job file.
func oneJob(c *cobra.Command, args []string) error {
	if len(args) != 1 {
		return wrong("%s takes one job file, or - for standard input; there are %d\nFor example:\n%s", c.CommandPath(), len(args), c.Example)
	}
	return nil
}

// noName refuses an empty name of a file, as a script gives it whose variable is
// not set: taken for no name at all, less would be done than was asked for.
func noName(flag string) error {
	return wrong("--%s takes the name of a file; the one given is empty", flag)
}

// atMostOne asks for at most one argument.
func atMostOne(c *cobra.Command, args []string) error {
	if len(args) > 1 {
		return wrong("%s takes at most one argument; there are %d\nFor example:\n%s", c.CommandPath(), len(args), c.Example)
	}
	return nil
}

func completionCommand() *cobra.Command {
	shells := []string{"bash", "zsh", "fish", "powershell"}
	return &cobra.Command{
		Use:       "completion SHELL",
		Short:     "Print a script that completes commands in bash, zsh, fish or powershell",
		Example:   "  source <(boxwalk completion bash)",
		ValidArgs: shells,
		Args:      cobra.MatchAll(cobra.ExactArgs(1), cobra.OnlyValidArgs),
		RunE: func(c *cobra.Command, args []string) error {
			root, out := c.Root(), c.OutOrStdout()
			write := map[string]func() error{
				"bash":       func() error { return root.GenBashCompletionV2(out, true) },
				"zsh":        func() error { return root.GenZshCompletion(out) },
				"fish":       func() error { return root.GenFishCompletion(out, true) },
				"powershell": func() error { return root.GenPowerShellCompletionWithDesc(out) },
			}
			return failed(write[args[0]]())
		},
	}
}

func (a *app) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Print the version",
		Example: "  boxwalk version",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintln(a.out, "boxwalk", version())
			return failed(err)
		},
	}
}
