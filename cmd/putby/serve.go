package main

import (
	"context"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/page"
	"putby/cmd/putby/internal/serve"
	"putby/ledger"
	"putby/ledger/figures"
)

const serveLong = `Show the page of the ledger live, with small forms to record a receipt, a run, a
pack, or something taken out, and to ask whether a sale is worth it: for a phone
in the kitchen. It needs no script. What is recorded is checked and saved as by
the commands, and putby undo takes it back.

By default only this machine can open it, on a free port that is printed. To let
a phone in, give an address of this machine: --addr 192.168.1.20:8700, or :8700
for all of them. Then a device must first open the link that is printed, which
works once. There is no encryption: do it only on a network whose users you
trust.

Ctrl-C stops it, once what is being saved is saved.`

func newServeCommand(a *app) *cobra.Command {
	addr := ""
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "the page live, with forms, for a phone in the kitchen",
		Long:  serveLong,
		Example: `  putby serve
  putby serve --addr 192.168.1.20:8700`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error { return runServe(cmd.Context(), a, addr) },
	}
	cmd.Flags().StringVar(&addr, "addr", "127.0.0.1:0", "`address` to listen on; port 0 is a free one")
	return cmd
}

func runServe(ctx context.Context, a *app, addr string) error {
	a.endsItself.Store(true)
	if _, err := a.pageReports(figures.Query{}, ""); err != nil {
		return err // better now than on the phone
	}
	return serve.Run(ctx, serve.House{
		Dir: a.ledgerDir(), Now: a.now, Out: a.stdout, Log: a.stderr, Guard: a.guarded,
		Reports: func() (page.Reports, error) { return a.pageReports(figures.Query{}, "") },
		Ledger: func(asOf string) (*ledger.Ledger, error) {
			s, err := a.stand(asOf)
			if err != nil {
				return nil, err
			}
			return s.byDay(ledger.Options{})
		},
	}, addr)
}
