package folder

var here = windowsRules
