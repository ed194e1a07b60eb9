package folder

import "os"

// A system is what matters here of how operating systems differ. Tests run the
// laws of saving by the rules of each.
type system struct {
	// A folder can be synced, so that the names in it outlive a power cut.
	syncsFolders bool
	// A file can be removed while it is open; elsewhere that is refused, and so
	// whoever has it open keeps it.
	removesOpen bool
	// Who reads or writes a file that somebody has locked is kept from it, even
	// within one process.
	locksBind bool
}

// The rules of Unix and of Windows, which refuses to sync a folder that is open
// for reading, as Go opens them.
var (
	unixRules    = system{syncsFolders: true, removesOpen: true}
	windowsRules = system{locksBind: true}
)

// syncFolder brings the names in an open folder to the disk.
func syncFolder(f *os.File) error {
	if !here.syncsFolders {
		return nil // they are left to the file system's own journal
	}
	return f.Sync()
}
