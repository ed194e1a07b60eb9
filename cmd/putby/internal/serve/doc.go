// Package serve shows the page of a ledger live, with small forms to start
// and finish a run, pack, take out, freeze and write down a receipt, by the acts
// of the commands, and to ask whether a sale is worth it.
//
// It is meant for one household: by default it listens on this machine alone.
// What it records goes the way of every other change: the same rows, the same
// check of the whole ledger, one save that can be undone.
//
// # Protection
//
// A request is answered only when its Host is an address that the server
// listens on, so that no name of another site can be pointed here. One that
// changes something must say, as browsers do, that it comes from a page of this
// server ([http.CrossOriginProtection], and stricter), and must carry the mark
// of a form that the server has shown; a form records once, however often it is
// sent. A browser must first open the link that is printed: its token works once
// and leaves a cookie that other sites' requests do not carry (SameSite=Strict).
// So other accounts of the machine are kept out as well as other devices. Who was
// let in stays so when the server is started again: the ledger keeps a list of
// hashes ([Devices]), and [RemoveDevice] takes one off. Pages allow no script, no network and no frame
// around them, and are not to be stored. Times and sizes of requests are
// bounded: one is read whole before it is worked on, and answered once its page
// is whole, so that slow lines keep nobody else waiting.
//
// Without a certificate there is no encryption: on a network that others use,
// they can read along.
package serve
