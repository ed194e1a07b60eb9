package main

import "github.com/spf13/pflag"

func runPlan(a *app, o *worthOptions, flags *pflag.FlagSet) error { return nil }
