package draw

import "tuckup/kennel"

// The drawing of a dog from its left side, long-legged and with its tail up, picWidth wide. It is made like a
// painting: what comes later covers what came before, and the areas of head and trunk end at their outlines. The
// short-legged dog is the same drawing, bent.

// part is where a shape belongs in the painting.
type part int

const (
	partFar   part = iota // behind the body: the legs of the other side, the tail
	partTrunk             // on the body, ending at its outline
	partNear              // over the body: the legs of this side
	partHead              // on the head, ending at its outline
	partEar               // over everything
	parts                 // how many there are
)

// shape is one curve of an area, painted in its part in the order of the list.
type shape struct {
	area kennel.AreaName
	part part
	edge []point
}

// name is where an area's name stands on the long-legged and on the short-legged dog, and the spots of the area to
// which lines lead from it; none where the name stands on the area itself.
type name struct {
	area        kennel.AreaName
	long, short point // of the first line's foot
	anchor      string
	lead        [2]point // where lines start, from the name
	spots       []point  // on the drawing, before it is bent
}

// The bends that make the short-legged dog: a longer middle, and legs of less than half the length.
var (
	shortAcross = bend{{0, -14}, {165, 151}, {275, 291}, {picWidth, picWidth + 4}}
	shortDown   = bend{{0, 0}, {228, 228}, {340, 276}, {361, 297}}
)

// The outlines of trunk and head, the eye, the nose, and short strokes for wiry hair.
var (
	trunk = []point{
		{126, 102},
		{140, 92},
		{152, 96},
		{162, 112},
		{174, 130},
		{190, 139},
		{214, 142},
		{244, 141},
		{270, 139},
		{294, 139},
		{314, 145},
		{327, 160},
		{332, 182},
		{330, 206},
		{322, 228},
		{304, 238},
		{288, 236},
		{274, 229},
		{254, 232},
		{228, 241},
		{202, 248},
		{180, 250},
		{162, 245},
		{149, 232},
		{141, 212},
		{135, 190},
		{132, 170},
		{128, 152},
		{122, 136},
		{118, 118},
	}
	head = []point{
		{36, 106},
		{41, 99},
		{56, 97},
		{76, 94},
		{90, 87},
		{103, 81},
		{122, 79},
		{138, 81},
		{148, 91},
		{150, 105},
		{144, 119},
		{130, 127},
		{112, 131},
		{99, 133},
		{90, 142},
		{76, 148},
		{62, 148},
		{50, 144},
		{42, 146},
		{38, 136},
		{35, 124},
		{33, 114},
	}
	nose = []point{
		{31, 106}, {38, 100}, {45, 104}, {44, 110}, {36, 113},
	}
	eye  = point{97, 98}
	wire = [][2]point{
		{{196, 247}, {194, 258}},
		{{204, 246}, {202, 258}},
		{{212, 244}, {210, 256}},
		{{220, 242}, {218, 253}},
		{{228, 240}, {226, 250}},
		{{236, 238}, {234, 247}},
		{{244, 235}, {242, 243}},
		{{252, 233}, {250, 240}},
		{{170, 352}, {169, 358}},
		{{179, 353}, {178, 360}},
		{{187, 352}, {187, 358}},
		{{322, 353}, {321, 358}},
		{{331, 354}, {330, 360}},
		{{340, 353}, {339, 358}},
		{{168, 300}, {168, 312}},
		{{190, 290}, {189, 304}},
		{{180, 320}, {180, 334}},
		{{332, 304}, {331, 318}},
		{{345, 296}, {344, 310}},
		{{338, 326}, {337, 338}},
		{{184, 262}, {183, 274}},
		{{48, 120}, {44, 129}},
		{{60, 119}, {56, 128}},
		{{72, 117}, {68, 126}},
		{{84, 116}, {80, 125}},
		{{54, 132}, {50, 141}},
		{{66, 131}, {62, 140}},
		{{78, 129}, {74, 138}},
		{{90, 126}, {86, 135}},
		{{60, 143}, {56, 152}},
		{{72, 142}, {68, 151}},
		{{84, 138}, {80, 147}},
	}
)

// shapes is every area's shape in the order in which they are painted.
var shapes = []shape{
	{kennel.AreaFurnishings, partFar, []point{
		{156, 232},
		{176, 238},
		{178, 280},
		{176, 326},
		{178, 340},
		{174, 350},
		{152, 351},
		{145, 345},
		{153, 335},
		{156, 290},
	}},
	{kennel.AreaFurnishings, partFar, []point{
		{280, 226},
		{300, 232},
		{304, 258},
		{314, 276},
		{322, 292},
		{318, 322},
		{320, 342},
		{316, 352},
		{296, 352},
		{288, 346},
		{298, 334},
		{302, 314},
		{303, 298},
		{290, 280},
		{276, 256},
	}},
	{kennel.AreaTail, partFar, []point{
		{304, 146},
		{305, 122},
		{307, 100},
		{312, 80},
		{320, 66},
		{329, 66},
		{332, 80},
		{330, 100},
		{328, 122},
		{329, 146},
		{318, 154},
	}},
	{kennel.AreaRibs, partTrunk, []point{
		{178, 150}, {216, 148}, {252, 148}, {262, 170}, {262, 206}, {248, 222}, {206, 226}, {180, 222}, {170, 190},
	}},
	{kennel.AreaLoin, partTrunk, []point{
		{244, 150}, {284, 146}, {292, 164}, {288, 196}, {276, 224}, {256, 236}, {250, 214}, {252, 180},
	}},
	{kennel.AreaBack, partTrunk, []point{
		{176, 130},
		{214, 134},
		{250, 133},
		{292, 130},
		{296, 150},
		{286, 160},
		{252, 164},
		{214, 164},
		{184, 162},
		{172, 148},
	}},
	{kennel.AreaNeck, partTrunk, []point{
		{116, 84}, {150, 86}, {164, 104}, {182, 130}, {172, 150}, {156, 168}, {140, 166}, {128, 148}, {112, 116},
	}},
	{kennel.AreaRump, partTrunk, []point{
		{278, 130}, {312, 132}, {334, 154}, {342, 180}, {330, 192}, {308, 184}, {290, 172}, {282, 156},
	}},
	{kennel.AreaSkirtLine, partTrunk, []point{
		{158, 218},
		{186, 214},
		{222, 216},
		{254, 210},
		{268, 206},
		{276, 222},
		{266, 240},
		{236, 252},
		{200, 260},
		{168, 258},
		{152, 244},
	}},
	{kennel.AreaForechest, partTrunk, []point{
		{112, 146}, {130, 146}, {146, 158}, {150, 180}, {150, 226}, {160, 252}, {140, 250}, {122, 220}, {118, 186},
	}},
	{kennel.AreaThroat, partTrunk, []point{
		{104, 112}, {122, 112}, {128, 130}, {134, 148}, {136, 162}, {124, 160}, {112, 140}, {104, 126},
	}},
	{kennel.AreaWithers, partTrunk, []point{
		{154, 118}, {164, 112}, {178, 122}, {202, 134}, {206, 146}, {192, 156}, {176, 156}, {162, 144},
	}},
	{kennel.AreaFurnishings, partNear, []point{
		{152, 228},
		{166, 216},
		{184, 220},
		{198, 236},
		{200, 262},
		{197, 300},
		{196, 334},
		{199, 350},
		{194, 360},
		{168, 361},
		{158, 355},
		{163, 342},
		{164, 318},
		{162, 288},
		{157, 254},
	}},
	{kennel.AreaFurnishings, partNear, []point{
		{278, 214},
		{304, 206},
		{330, 200},
		{333, 222},
		{336, 244},
		{346, 266},
		{355, 286},
		{351, 312},
		{349, 336},
		{351, 350},
		{346, 360},
		{321, 361},
		{311, 354},
		{320, 343},
		{327, 332},
		{329, 310},
		{327, 294},
		{313, 278},
		{293, 260},
		{279, 238},
	}},
	{kennel.AreaThigh, partNear, []point{
		{282, 176},
		{302, 174},
		{322, 182},
		{334, 186},
		{333, 206},
		{334, 226},
		{332, 242},
		{320, 250},
		{302, 250},
		{288, 244},
		{275, 230},
		{270, 214},
		{274, 192},
	}},
	{kennel.AreaShoulder, partNear, []point{
		{158, 152},
		{172, 150},
		{184, 166},
		{190, 190},
		{188, 214},
		{178, 234},
		{160, 242},
		{144, 232},
		{142, 204},
		{146, 174},
	}},
	{kennel.AreaSkull, partHead, []point{
		{80, 90}, {98, 72}, {126, 70}, {148, 76}, {158, 92}, {146, 100}, {126, 99}, {108, 98}, {90, 97},
	}},
	{kennel.AreaCheeks, partHead, []point{
		{104, 99}, {126, 101}, {146, 101}, {156, 110}, {144, 128}, {122, 134}, {104, 134}, {97, 118},
	}},
	{kennel.AreaFurnishings, partHead, []point{
		{28, 116},
		{40, 113},
		{56, 112},
		{74, 110},
		{90, 107},
		{99, 110},
		{103, 122},
		{102, 134},
		{92, 150},
		{76, 156},
		{56, 156},
		{40, 152},
		{30, 134},
	}},
	{kennel.AreaFurnishings, partEar, []point{
		{82, 96}, {84, 86}, {92, 80}, {100, 80}, {104, 86}, {98, 93}, {90, 97}, {84, 102},
	}},
	{kennel.AreaEars, partEar, []point{
		{114, 88},
		{120, 76},
		{132, 72},
		{145, 76},
		{147, 84},
		{140, 94},
		{130, 104},
		{121, 114},
		{114, 111},
		{112, 99},
	}},
}

// names is where every area's name stands.
var names = []name{
	{kennel.AreaSkull, point{42, 44}, point{40, 44}, "middle", [2]point{{48, 62}, {46, 62}}, []point{{100, 84}}},
	{kennel.AreaEars, point{124, 22}, point{113, 22}, "middle", [2]point{{126, 40}, {110, 40}}, []point{{130, 84}}},
	{kennel.AreaNeck, point{184, 46}, point{176, 46}, "middle", [2]point{{178, 64}, {166, 64}}, []point{{152, 116}}},
	{kennel.AreaWithers, point{195, 84}, point{195, 84}, "middle", [2]point{{192, 102}, {190, 102}}, []point{{180, 141}}},
	{kennel.AreaBack, point{256, 40}, point{258, 40}, "middle", [2]point{{245, 58}, {250, 58}}, []point{{226, 152}}},
	{kennel.AreaLoin, point{270, 90}, point{280, 90}, "middle", [2]point{{270, 107}, {282, 107}}, []point{{270, 178}}},
	{kennel.AreaTail, point{436, 84}, point{436, 84}, "end", [2]point{{404, 80}, {404, 80}}, []point{{326, 90}}},
	{kennel.AreaRump, point{436, 140}, point{436, 140}, "end", [2]point{{396, 138}, {396, 138}}, []point{{314, 162}}},
	{kennel.AreaThigh, point{436, 204}, point{436, 204}, "end", [2]point{{396, 202}, {396, 202}}, []point{{312, 214}}},
	{kennel.AreaRibs, point{218, 186}, point{220, 186}, "middle", [2]point{}, nil},
	{kennel.AreaSkirtLine, point{246, 280}, point{240, 262}, "middle", [2]point{{240, 268}, {226, 250}}, []point{{222, 228}}},
	{kennel.AreaFurnishings, point{246, 330}, point{216, 316}, "middle", [2]point{{246, 317}, {216, 303}}, []point{{186, 290}, {306, 262}}},
	{kennel.AreaCheeks, point{4, 182}, point{4, 176}, "start", [2]point{{52, 178}, {52, 172}}, []point{{112, 122}}},
	{kennel.AreaThroat, point{4, 220}, point{4, 206}, "start", [2]point{{46, 216}, {46, 202}}, []point{{124, 142}}},
	{kennel.AreaForechest, point{4, 258}, point{4, 236}, "start", [2]point{{66, 254}, {66, 232}}, []point{{132, 196}}},
	{kennel.AreaShoulder, point{4, 296}, point{4, 266}, "start", [2]point{{64, 292}, {64, 262}}, []point{{156, 222}}},
}
