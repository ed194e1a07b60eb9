// Package manual writes what is known of a command as help for a terminal and
// as a manual page, and holds the topics that no single command is about
// ([Topics], [Topic]). A [Page] is plain text in parts; it knows nothing of how
// commands are built. [Help] and [Roff] read the same page, so that they cannot
// differ.
//
// # Text
//
// In a page's text, paragraphs are parted by blank lines and filled to the
// width; lines that begin with a space stay as they are, and where one is too
// long its rest goes below it, further in: a command in a way that a shell takes
// it when it is pasted. A line that begins with "# " is a
// heading, one that begins with "- " an item of a list, whose further lines are
// set in by two spaces.
package manual
