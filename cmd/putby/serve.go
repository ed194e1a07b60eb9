package main

import (
	"context"
	"crypto/tls"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/serve"
	"putby/ledger/folder"
	"putby/pricing/exact"
)

const serveLong = `Show the page of the ledger live, with a form for everything of the day, for a
phone in the kitchen: start and finish a run, pack, take out, freeze, receipts,
prices seen, kitchen work, stocktakes, new foods and supplies, files of receipts
and runs, a meter's log, prices by the hour, and whether a sale is worth it. They
read the words of the commands, and need no script. What is recorded is checked
and saved as by the commands; each change can be undone and corrected on its page.

By default only this machine can open it, on a free port that is printed, and
only a browser that opened the printed link: it works once, and lets that browser
in for good. To let a phone in, give --lan: the link is then drawn as a code for
its camera too. putby serve devices lists who is let in, and removes.

There is no encryption without a certificate of your own (--tls-cert and
--tls-key, in PEM): do it only on a network whose users you trust.

Ctrl-C stops it, once what is being saved is saved.`

// lanAddr is where all devices of a home's network can ask: a fixed port, so that
// a bookmark goes on working.
const lanAddr = ":8700"

// serveOptions say where and how to serve.
type serveOptions struct {
	addr      string
	lan       bool
	cert, key string
}

func newServeCommand(a *app) *cobra.Command {
	o := &serveOptions{}
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "the page live, with forms, for a phone in the kitchen",
		Long:  serveLong,
		Example: `  putby serve
  putby serve --lan
  putby serve --addr 192.168.1.20:8700`,
		Args: arguments(),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if o.lan && !cmd.Flags().Changed("addr") {
				o.addr = lanAddr
			}
			return runServe(cmd.Context(), a, o)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.lan, "lan", false, "let the phones of this network in, at port 8700")
	f.StringVar(&o.addr, "addr", "127.0.0.1:0", "`address` to listen on; port 0 is a free one")
	f.StringVar(&o.cert, "tls-cert", "", "encrypt with the certificate of this `file`")
	f.StringVar(&o.key, "tls-key", "", "the certificate's key, in this `file`")
	cmd.MarkFlagsRequiredTogether("tls-cert", "tls-key")
	_ = cmd.MarkFlagFilename("tls-cert")
	_ = cmd.MarkFlagFilename("tls-key")
	cmd.AddCommand(newDevicesCommand(a))
	return cmd
}

// certificate reads the one to encrypt with; nil where none is asked for.
func (o *serveOptions) certificate() (*tls.Certificate, error) {
	if o.cert == "" {
		return nil, nil
	}
	c, err := tls.LoadX509KeyPair(o.cert, o.key)
	if err != nil {
		return nil, misused("--tls-cert %s with --tls-key %s is no certificate with its key: %v",
			exact.Quote(o.cert), exact.Quote(o.key), folder.Cause(err))
	}
	return &c, nil
}

func runServe(ctx context.Context, a *app, o *serveOptions) error {
	cert, err := o.certificate()
	if err != nil {
		return err
	}
	a.endsItself.Store(true)
	return serve.Run(ctx, serve.Served{
		Dir: a.ledgerDir(), Now: a.now, Out: a.stdout, Log: a.stderr, Guard: a.catchPanic, TLS: cert, Code: o.lan,
	}, o.addr)
}
