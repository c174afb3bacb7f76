package main

import (
	"encoding/binary"
	"fmt"
	"regexp"
)

var numbers = regexp.MustCompile(`^\d+(\.\d+){0,2}`)

// plist says to macOS what the app is. LSUIElement keeps it out of the Dock: its window is the browser's.
func plist(version string) string {
	short := numbers.FindString(version)
	if short == "" {
		short = "0"
	}
	return fmt.Sprintf(`<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0">
<dict>
	<key>CFBundleName</key><string>tuckup</string>
	<key>CFBundleDisplayName</key><string>tuckup</string>
	<key>CFBundleIdentifier</key><string>tuckup.desk</string>
	<key>CFBundleExecutable</key><string>tuckup</string>
	<key>CFBundleIconFile</key><string>tuckup</string>
	<key>CFBundlePackageType</key><string>APPL</string>
	<key>CFBundleShortVersionString</key><string>%s</string>
	<key>CFBundleVersion</key><string>%s</string>
	<key>LSMinimumSystemVersion</key><string>12.0</string>
	<key>LSUIElement</key><true/>
	<key>NSHighResolutionCapable</key><true/>
</dict>
</plist>
`, short, short)
}

// icns is a picture of 512 by 512 points as an icon of macOS: a container whose one entry is the PNG itself.
func icns(png []byte) []byte {
	const head = 8 // a name of four letters and a length
	b := []byte("icns")
	b = binary.BigEndian.AppendUint32(b, uint32(2*head+len(png))) //nolint:gosec // an icon is small
	b = append(b, "ic09"...)
	b = binary.BigEndian.AppendUint32(b, uint32(head+len(png))) //nolint:gosec // an icon is small
	return append(b, png...)
}
