package main

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
)

// runKept writes the folders that are frozen with a release, a case each: a tower
// that is ready, in two workbooks, one of them with a photo and with a short blade
// that the owner accepted; and one of which little was read.
func runKept(dir string) error {
	for folder, plants := range map[string][]plant{
		"ready": {keptPlant("first.xlsx", 1, metricTower), keptPlant("second.xlsx", 2, acceptedTower)},
		"open":  {openPlant()},
	} {
		if err := os.MkdirAll(filepath.Join(dir, folder), 0o755); err != nil {
			return err
		}
		if err := write(filepath.Join(dir, folder), plants); err != nil {
			return err
		}
	}
	photo, err := hubPicture()
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "ready", hubFile), photo, 0o644)
}

const hubFile = "hub.jpg"

// keptPlant is one cell of the small plant in a workbook of its own.
func keptPlant(file string, number int, tower func(plant, *filler)) plant {
	p := metric()
	p.file, p.tower = file, tower
	p.form.Cells, p.form.FirstCell = 1, number
	p.cells[1].fan.extra[3] = -8.9
	p.cells = p.cells[number-1 : number]
	return p
}

// acceptedTower has a short blade that the owner accepted, and a photo of it.
func acceptedTower(p plant, f *filler) {
	metricTower(p, f)
	accept := func(row int, number, check, found string) {
		f.row("deviations", row, number, 2, check, "As left", found, "Owner's letter 3 (invented)",
			"Lev Dorrin", "Fennmark Mill", day("2026-05-06"), "blade 4 only; to be read again at the next outage")
	}
	accept(1, "D-1", "Tip clearance, all blades", "24.5 mm")
	accept(2, "D-2", "Tip radius", "9 mm")
	f.row("openitems", 1, "1", "Touch up paint at the feet", "Jorun Askvik", 2, day("2026-05-08"), "closed")
	f.row("attachments", 1, "photo", 2, hubFile, "A drawing in place of a photo: the hub of cell 2 with its six blades (invented)")
}

// openPlant is a cell that was read once, left tilted and off center, and neither
// bolted nor started.
func openPlant() plant {
	p := keptPlant("open.xlsx", 2, metricTower)
	c := &p.cells[0]
	c.rounds, c.moves, c.works = c.rounds[:1], nil, works{}
	c.rounds[0].drive, c.rounds[0].accepted = nil, true
	return p
}

// hubPicture is a drawing of a hub and its blades.
func hubPicture() ([]byte, error) {
	const side, blades = 240, 6
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			dx, dy := float64(x)-side/2, float64(y)-side/2
			r, turn := math.Hypot(dx, dy), math.Atan2(dy, dx)*blades/(2*math.Pi)
			gray := uint8(220)
			if r < side/8 || r < side*0.45 && math.Abs(turn-math.Round(turn)) < 0.12 {
				gray = 90
			}
			img.SetGray(x, y, color.Gray{Y: gray})
		}
	}
	var out bytes.Buffer
	err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 60})
	return out.Bytes(), err
}
