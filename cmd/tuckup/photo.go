package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	pics "tuckup/kennel/picture"
)

func (a *app) measurePhotoCommand(e editor) *cobra.Command {
	var on, area, note string
	c := &cobra.Command{
		Use:   "photo DOG FILE",
		Short: "Keep a picture of a dog on a day, of all of it or of one area",
		Long: "photo keeps a picture (JPEG or PNG) beside the book: made smaller, and without the place and the camera that a phone writes into it. " +
			"Reports and the desk show pictures by day and area.",
		Example: "  tuckup measure photo Sorrel sorrel.jpg\n  tuckup measure photo Sorrel back.jpg --area back --on 2027-01-05",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 2 {
				return usage(c.UseLine(), "%s takes a dog and a picture", c.CommandPath())
			}
			return nil
		},
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		taken, err := readPhoto(args[1])
		if err != nil {
			return err
		}
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			i, err := s.Kennel.FindDog(args[0])
			if err != nil {
				return "", err
			}
			p := kennel.Photo{Dog: s.Kennel.Dogs[i].Name, Note: note}
			if p.On, err = onOr(c, on, today); err != nil {
				return "", err
			}
			if area != "" {
				if p.Area, err = kennel.MatchArea(area); err != nil {
					return "", err
				}
			}
			return fmt.Sprintf("kept a picture of %s of %s", p.Dog, p.On), a.keepPhoto(s, taken, p)
		})
	}
	c.Flags().StringVar(&on, "on", "", "the day (default: today)")
	c.Flags().StringVar(&area, "area", "", "the area that it shows (default: the whole dog)")
	c.Flags().StringVar(&note, "note", "", "your own note; owners don't see it")
	e.flags(c)
	return c
}

// readPhoto is the picture in a file, as it is kept; nothing for no file.
func readPhoto(file string) (pics.Picture, error) {
	if file == "" {
		return pics.Picture{}, nil
	}
	data, err := readUpTo(file, "a picture as a JPEG or PNG file", pics.Largest)
	if err != nil {
		return pics.Picture{}, err
	}
	return pics.Read(filepath.Base(file), data)
}

// keepPhoto notes a picture in the book and, unless nothing is to be written, puts it beside it.
func (a *app) keepPhoto(s *book.State, taken pics.Picture, p kennel.Photo) error {
	if taken.Digest == "" {
		return nil
	}
	p.Digest = taken.Digest
	s.AddPhoto(p)
	if a.flags.dryRun {
		return nil
	}
	path, err := a.bookPath()
	if err != nil {
		return err
	}
	_, err = book.KeepPhoto(path, taken.Data)
	return err
}

// exportPhotos writes the book's pictures into a folder, by dog, day and area. Files that are there already are not written over.
func exportPhotos(s book.State, path, folder string) (written, missing int, err error) {
	if err := makeFolder(folder); err != nil {
		return 0, 0, err
	}
	for _, p := range s.Photos {
		data, err := book.ReadPhoto(path, p.Digest)
		if err != nil {
			missing++
			continue
		}
		area := string(p.Area)
		if p.Area == book.AllAreas {
			area = "whole"
		}
		name := strings.TrimSuffix(pageName(p.On.String(), p.Dog+" "+area), ".html") + "-" + p.Digest[:8] + ".jpg"
		f, err := os.OpenFile(filepath.Join(folder, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if os.IsExist(err) {
			continue
		}
		if err != nil {
			return written, missing, err
		}
		_, err = f.Write(data)
		if e := f.Close(); err == nil {
			err = e
		}
		if err != nil {
			return written, missing, err
		}
		written++
	}
	return written, missing, nil
}
