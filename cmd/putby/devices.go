package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/serve"
	"putby/pricing/exact"
)

const devicesLong = `List the browsers that putby serve lets in, the first first. What a device is
called is what its browser said of itself. To shut one out, a lost phone perhaps,
remove it by its number: it is out at once, also of a server that runs. The
ledger keeps only a hash of what such a browser holds.`

func newDevicesCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "devices", Short: "who is let in, and shutting out", Long: devicesLong,
		Args: arguments(),
		RunE: func(*cobra.Command, []string) error { return runDevices(a) },
	}
	cmd.AddCommand(&cobra.Command{
		Use: "remove NUMBER", Short: "shut a device out",
		Long:    "Shut out the device of that number in the list: at once, also of a server that runs.",
		Example: "  putby serve devices remove 2",
		Args:    arguments("NUMBER"),
		RunE: func(cmd *cobra.Command, args []string) error {
			number, err := strconv.Atoi(args[0])
			if err != nil {
				return misused("%s is not a number of the list of putby serve devices", exact.Quote(args[0]))
			}
			if err := serve.RemoveDevice(cmd.Context(), a.ledgerDir(), number); err != nil {
				return err
			}
			fmt.Fprintf(a.stdout, "Device %d is shut out.\n", number)
			return nil
		},
	})
	return cmd
}

func runDevices(a *app) error {
	list, err := serve.Devices(a.ledgerDir())
	if err != nil {
		return err
	}
	if len(list) == 0 {
		fmt.Fprintln(a.stdout, "No device is let in. putby serve prints the link for one.")
	}
	for _, d := range list {
		fmt.Fprintf(a.stdout, "%d  since %s  %s\n", d.Number, d.Since.Local().Format("2006-01-02 15:04"), printable(d.Name))
	}
	return nil
}
