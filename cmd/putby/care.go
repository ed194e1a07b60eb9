package main

// machineCare is what to heed with a freeze-dryer, shown where one is added and
// where runs are taught.
const machineCare = `Caution: a freeze-dryer is a mains appliance with a vacuum pump. Give it an
earthed socket of its own that bears its current; never open it under vacuum;
let hot pump oil cool before you drain it; unplug it before service. Its maker's
manual and local rules come first.`

// careOf is what to heed with the things that records of a kind are of.
var careOf = map[string]string{"machine": machineCare}
