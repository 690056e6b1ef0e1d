package bearing

// Standard tolerances and fundamental deviations of ISO 286, in µm, and the
// normal class of ISO 492. IT5 to IT12 meet the standard's formula within 8.4 %
// above 3 mm. The deviations are from memory and meet the published cells and
// resultant fits of testdata/ref/bearing-fits.csv; s above 65 mm, j shafts, J6
// and J7 up to 6 mm and J8 up to 18 mm rest on memory alone.

// sizeRanges are the upper ends in mm of the columns, each including its end.
var sizeRanges = [...]float64{3, 6, 10, 18, 30, 50, 80, 120, 180, 250}

// fineRanges are the columns of r and s.
var fineRanges = [...]float64{3, 6, 10, 18, 30, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250}

var tolerances = map[int][len(sizeRanges)]float64{
	4:  {3, 4, 4, 5, 6, 7, 8, 10, 12, 14},
	5:  {4, 5, 6, 8, 9, 11, 13, 15, 18, 20},
	6:  {6, 8, 9, 11, 13, 16, 19, 22, 25, 29},
	7:  {10, 12, 15, 18, 21, 25, 30, 35, 40, 46},
	8:  {14, 18, 22, 27, 33, 39, 46, 54, 63, 72},
	9:  {25, 30, 36, 43, 52, 62, 74, 87, 100, 115},
	10: {40, 48, 58, 70, 84, 100, 120, 140, 160, 185},
	11: {60, 75, 90, 110, 130, 160, 190, 220, 250, 290},
	12: {100, 120, 150, 180, 210, 250, 300, 350, 400, 460},
}

var (
	deviationF = [len(sizeRanges)]float64{6, 10, 13, 16, 20, 25, 30, 36, 43, 50}
	deviationG = [len(sizeRanges)]float64{2, 4, 5, 6, 7, 9, 10, 12, 14, 15}
	deviationK = [len(sizeRanges)]float64{0, 1, 1, 1, 2, 2, 2, 3, 3, 4}
	deviationM = [len(sizeRanges)]float64{2, 4, 6, 7, 8, 9, 11, 13, 15, 17}
	deviationN = [len(sizeRanges)]float64{4, 8, 10, 12, 15, 17, 20, 23, 27, 31}
	deviationP = [len(sizeRanges)]float64{6, 12, 15, 18, 22, 26, 32, 37, 43, 50}
	deviationR = [len(fineRanges)]float64{10, 15, 19, 23, 28, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84}
	deviationS = [len(fineRanges)]float64{14, 19, 23, 28, 35, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140}
)

// deviationJ is the lower deviation of a shaft j by grade, deviationBoreJ the
// upper one of a bore J.
var (
	deviationJ = map[int][len(sizeRanges)]float64{
		5: {-2, -2, -2, -3, -4, -5, -7, -9, -11, -13},
		6: {-2, -2, -2, -3, -4, -5, -7, -9, -11, -13},
		7: {-4, -4, -5, -6, -8, -10, -12, -15, -18, -21},
	}
	deviationBoreJ = map[int][len(sizeRanges)]float64{
		6: {2, 5, 5, 6, 8, 10, 13, 16, 18, 22},
		7: {4, 6, 8, 10, 12, 14, 18, 22, 26, 30},
		8: {6, 10, 12, 15, 20, 24, 28, 34, 41, 47},
	}
)

// A rangeOf is one row of a tolerance table: sizes in mm over the first up to
// and including the second, and the lower deviation in µm.
type rangeOf struct{ over, upTo, lower float64 }

// Normal class of ISO 492: bores seen in one maker's column and one handbook's
// excerpt, outside diameters in a maker's tables of resultant fits (2.5 to 6 mm
// in inches only).
var (
	boreTolerance    = [...]rangeOf{{2.5, 10, -8}, {10, 18, -8}, {18, 30, -10}, {30, 50, -12}, {50, 80, -15}, {80, 120, -20}, {120, 180, -25}, {180, 250, -30}}
	outsideTolerance = [...]rangeOf{{2.5, 6, -8}, {6, 18, -8}, {18, 30, -9}, {30, 50, -11}, {50, 80, -13}, {80, 120, -15}, {120, 150, -18}, {150, 180, -25}, {180, 250, -30}}
)
