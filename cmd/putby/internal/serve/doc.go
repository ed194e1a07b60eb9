// Package serve shows the page of a ledger live, with a form for everything of
// the day, by the acts of the commands: runs from start to finish, packs, what is
// taken out or frozen, receipts, prices seen, kitchen work, stocktakes, new foods and
// supplies, files of receipts, runs and prices, a plug meter's log and prices by the
// hour; and with the question whether a sale is worth it. Records of every kind can be
// looked through, added, corrected and taken out by forms made of the schema, and
// settings changed. Every change is listed, can be undone, done again and corrected.
//
// [Run] serves a ledger, which a [Served] describes, until its context ends.
//
// It is meant for one household: by default it listens on this machine alone.
// What it records goes the way of every other change: the same rows, the same
// check of the whole ledger, one save that can be undone.
//
// # How a form is made
//
// A [recording] is a form: its fields, and the draft that they come to. Each has a file; those
// of records that are there are in change.go and record_form.go. A [filling] is one as somebody
// filled it in, before the ledger as it is. [server.takeForm] (record.go) saves it, or keeps what
// it holds to show it again; what it came to is an [outcome]. Between requests [kept] has the
// ledger, of which a [state] is how its files were at one moment.
//
// # Protection
//
// A request is answered only when its Host is an address that the server
// listens on, so that no name of another site can be pointed here. One that
// changes something must say, as browsers do, that it comes from a page of this
// server ([http.CrossOriginProtection], and stricter), and must carry the mark
// of a form that the server has shown; a form records once, however often it is
// sent. A form that is sent is answered by sending the browser on to another page,
// so that going back or loading again sends nothing. A browser must
// first open the link that is printed: its token works once and leaves a cookie that
// other sites' requests do not carry (SameSite=Strict).
// So other accounts of the machine are kept out as well as other devices. Who was
// let in stays so when the server is started again: the ledger keeps a list of
// hashes ([Devices]), and [RemoveDevice] takes one off. Pages
// allow no network, no frame around them and no script but the small one of forms,
// without which they work too, and are not to be stored. Times and sizes of requests are
// bounded: one is read whole before it is worked on, and answered once its page
// is whole, so that slow lines keep nobody else waiting.
//
// Without a certificate there is no encryption: on a network that others use,
// they can read along.
package serve
