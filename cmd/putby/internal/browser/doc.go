// Package browser drives a real browser in the tests of pages: it opens a
// page, asks the page questions, takes its picture and prints it, and notes
// every request that leaves and every error on the console. It speaks the
// browser's debugging protocol over a pipe, so that it needs no port and no
// library, and what it asks is not bound by the page's content policy.
//
// [Start] starts the browser, [Browser.Open] a tab of a width. [Tab.Go] shows a page,
// [Tab.Tap], [Tab.Type] and [Tab.Press] do what a person does, [Tab.Eval] asks it,
// [Tab.Picture] and [Tab.Print] keep it, and [Tab.Violations] holds it to axe-core.
//
// Only tests import it. Where no browser is installed they are skipped, but
// not where CI=true.
package browser
