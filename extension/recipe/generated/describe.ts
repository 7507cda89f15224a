// Made by schemas/generate.mjs from schemas/recipe.parts.json; do not edit.
import type { KeyDescription } from "../schema/key-description.ts";

const k0: KeyDescription = {"type":"object","description":"A roll of film that was shot and photographed: its stock, its scans, how they are converted, and its frames.","keys":["version","title","stock","film","format","exposed","iptc","scans","light","negative","positive","output","frames","note","fingerprints","automatic"],"requiredKeys":["version"]};
const k1: KeyDescription = {"type":"number","description":"Version of the recipe format: 2. Recipes of version 1 stay valid and keep their pictures: toe and shoulder then mean what they meant in version 1. `rollbook format --upgrade` converts them.","enum":[2,1],"examples":[2],"required":true};
const k2: KeyDescription = {"type":"string","description":"The roll's name, as it is to appear on contact sheets and in the pictures' metadata.","examples":["Harbour, first light"]};
const k3: KeyDescription = {"type":"string","description":"Path of the stock's recipe, relative to this file. Every value that the roll does not state itself comes from there.","isPath":true,"examples":["../stocks/northlight-400.stock.yaml"]};
const k4: KeyDescription = {"type":"string","description":"What kind of film it is. Slide film is already positive: base, gamma, curve and unmix do not apply to it.","enum":["colour-negative","black-and-white-negative","slide"],"default":"colour-negative","examples":["colour-negative"]};
const k5: KeyDescription = {"type":["string","array"],"description":"Size of a frame on the film: a name in quotes (135 to 24x65 on perforated 35 mm film, 645 to 6x17 on roll film, 127-4x3 to 110 on smaller films, cine-35 to cine-8s on cine film (16w is 16 mm Type W, 8s is 8 mm Type S), 4x5in to 8x10in on sheets) or [width, height] in millimetres. It gives the scale for ppi and print sizes.","unit":"a name, or millimetres","layout":"flow","minimum":1,"maximum":1000,"enum":["135","135-half","24x24","24x65","645","6x6","6x7","6x8","6x9","6x12","6x17","127-4x3","127-4x4","127-4x6","126","110","cine-35","cine-16","cine-16w","cine-9.5","cine-8","cine-8s","4x5in","5x7in","8x10in"],"examples":["\"135\"","[60, 45]"],"minItems":2,"maxItems":2};
const k6: KeyDescription = {"type":"number","minimum":1,"maximum":1000};
const k7: KeyDescription = {"type":"object","description":"How the film was exposed, for the record and for the pictures' metadata. A frame states what differs from its roll.","layout":"flow","examples":["{ camera: folding 35, lens: 50 mm, date: 2026-05-02, rated: 400 }"],"keys":["camera","lens","date","time","rated","push","place","coordinates","focal","aperture","shutter","filter","developer"]};
const k8: KeyDescription = {"type":"string","description":"The camera that exposed the film.","examples":["folding 35"]};
const k9: KeyDescription = {"type":"string","description":"The lens that exposed the film.","examples":["50 mm"]};
const k10: KeyDescription = {"type":"string","description":"Day of the exposure, as year-month-day.","unit":"calendar date","examples":["2026-05-02"]};
const k11: KeyDescription = {"type":"string","description":"Local time of the exposure, as hours:minutes, with seconds and the offset from UTC where they are known. It needs a date.","unit":"time of day","examples":["17:40","17:40:05+02:00"]};
const k12: KeyDescription = {"type":"number","description":"The speed that the film was metered at.","unit":"exposure index","minimum":0.1,"maximum":100000,"examples":[400]};
const k13: KeyDescription = {"type":"number","description":"Development beyond normal; negative when the film was pulled. A record only: what it did to the film belongs in gamma or curve.","unit":"stops","minimum":-5,"maximum":5,"default":0,"examples":[1]};
const k14: KeyDescription = {"type":"string","description":"Where the film was exposed.","examples":["Varnhaven"]};
const k15: KeyDescription = {"type":"array","description":"Where the film was exposed, as [latitude, longitude]: north and east are positive.","unit":"degrees, WGS 84","layout":"flow","examples":["[58.2406, 8.3772]"],"minItems":2,"maxItems":2};
const k16: KeyDescription = {"type":"number","description":"Latitude, north positive.","unit":"degrees","minimum":-90,"maximum":90};
const k17: KeyDescription = {"type":"number","description":"Longitude, east positive.","unit":"degrees","minimum":-180,"maximum":180};
const k18: KeyDescription = {"type":"number","description":"Focal length of the lens that exposed the film.","unit":"mm","minimum":0.5,"maximum":20000,"examples":[50]};
const k19: KeyDescription = {"type":"number","description":"Aperture that the film was exposed at: 5.6 for f/5.6.","unit":"f-number","minimum":0.5,"maximum":2000,"examples":[5.6]};
const k20: KeyDescription = {"type":["number","string"],"description":"Time that the film was exposed for: a fraction such as 1/250, or a number of seconds.","unit":"seconds","minimum":0.00001,"maximum":1000000,"examples":["1/250"]};
const k21: KeyDescription = {"type":"string","description":"Filter in front of the lens.","examples":["yellow, medium"]};
const k22: KeyDescription = {"type":"string","description":"How this film was developed: developer, dilution, time, temperature, in free text.","examples":["1+9, 8 min at 20 °C"]};
const k23: KeyDescription = {"type":"object","description":"What the pictures' metadata state of the picture, in the terms of the IPTC Photo Metadata Standard. A frame states what differs from its roll.","examples":["{ creator: Ada Lind, keywords: [harbour, ferry] }"],"keys":["caption","keywords","creator","copyright"]};
const k24: KeyDescription = {"type":"string","description":"Description of what the picture shows. Without one the frame's note stands in its place.","examples":["The east pier from the ferry, an hour after sunrise."]};
const k25: KeyDescription = {"type":"array","description":"Keywords of the picture. A frame's list stands in place of its roll's.","layout":"flow","examples":["[harbour, ferry, morning]"],"maxItems":100};
const k26: KeyDescription = {"type":"string","description":"One keyword."};
const k27: KeyDescription = {"type":"string","description":"Who took the picture.","examples":["Ada Lind"]};
const k28: KeyDescription = {"type":"string","description":"Copyright notice.","examples":["© 2026 Ada Lind"]};
const k29: KeyDescription = {"type":"string","description":"Folder of the scans, relative to this file. The names of scans elsewhere in the recipe are relative to this folder.","isPath":true,"default":".","defaultText":"the recipe's own folder","examples":["scans"]};
const k30: KeyDescription = {"type":"object","description":"The light source behind the film, and what the set-up itself adds to every scan.","examples":["{ blank: LIGHT.dng, flare: 0.004 }"],"keys":["blank","flare","times","spots","lens"]};
const k31: KeyDescription = {"type":["string","object"],"description":"Name of the scan of the bare light: same set-up, no film. Every scan is divided by it, which removes uneven light and the light's colour. For frames in three-colour light, the names of three: one each of the red, green and blue light.","layout":"flow","isPath":true,"examples":["LIGHT.dng","{ red: LIGHT-red.dng, green: LIGHT-green.dng, blue: LIGHT-blue.dng }"],"keys":["red","green","blue"],"requiredKeys":["red","green","blue"]};
const k32: KeyDescription = {"type":"string","description":"Name of the scan of the bare red light.","isPath":true,"examples":["LIGHT-red.dng"],"required":true};
const k33: KeyDescription = {"type":"string","description":"Name of the scan of the bare green light.","isPath":true,"examples":["LIGHT-green.dng"],"required":true};
const k34: KeyDescription = {"type":"string","description":"Name of the scan of the bare blue light.","isPath":true,"examples":["LIGHT-blue.dng"],"required":true};
const k35: KeyDescription = {"type":["number","array"],"description":"Veiling light that adds to every scan: one number, or one each for red, green and blue.","unit":"fraction of the bare light","layout":"flow","minimum":0,"maximum":0.2,"default":0,"examples":["[0.004, 0.004, 0.005]"],"minItems":3,"maxItems":3};
const k36: KeyDescription = {"type":"number","minimum":0,"maximum":0.2};
const k37: KeyDescription = {"type":"string","description":"What the shutter times in the scans' files are: taken as written, or nominal, the marks of the usual series, of which 1/30 stands for 1/32 s.","enum":["written","nominal"],"default":"written","examples":["nominal"]};
const k38: KeyDescription = {"type":"array","description":"What is to be healed: specks, each as [x, y, radius], and hairs or scratches, each as { line, width }. Under `light` they are on the sensor or lens and sit at the same place in every scan; under a frame they are on the film. y is counted in widths too, so that a spot is round.","unit":"fractions of the scan's width","layout":"rows","default":[],"examples":["[[0.412, 0.118, 0.0021]]","[{ line: [[0.31, 0.22], [0.34, 0.25]], width: 0.0012 }]"],"maxItems":5000};
const k39: KeyDescription = {"type":["array","object"],"description":"One speck: [x, y, radius]; or one hair or scratch: { line, width }.","layout":"flow","examples":["[0.412, 0.118, 0.0021]"],"minItems":3,"maxItems":3,"keys":["line","width"],"requiredKeys":["line","width"]};
const k40: KeyDescription = {"type":"array","description":"The course of a hair or a scratch: points [x, y] from one end to the other. It is healed along its course.","unit":"fractions of the scan's width","layout":"flow","examples":["[[0.31, 0.22], [0.34, 0.25]]"],"minItems":2,"maxItems":200,"required":true};
const k41: KeyDescription = {"type":"array","description":"One point of the course: [x, y].","layout":"flow","minItems":2,"maxItems":2};
const k42: KeyDescription = {"type":"number","description":"From the scan's left edge.","unit":"fraction of the scan's width","minimum":0,"maximum":1};
const k43: KeyDescription = {"type":"number","description":"From the scan's top edge.","unit":"fraction of the scan's width","minimum":0,"maximum":4};
const k44: KeyDescription = {"type":"number","description":"Width of the hair or scratch.","unit":"fraction of the scan's width","minimum":0.00002,"maximum":0.05,"examples":[0.0012],"required":true};
const k45: KeyDescription = {"type":"number","description":"Centre, from the scan's left edge.","unit":"fraction of the scan's width","minimum":0,"maximum":1};
const k46: KeyDescription = {"type":"number","description":"Centre, from the scan's top edge.","unit":"fraction of the scan's width","minimum":0,"maximum":4};
const k47: KeyDescription = {"type":"number","description":"Radius of the speck.","unit":"fraction of the scan's width","minimum":0.00001,"maximum":0.1};
const k48: KeyDescription = {"type":"object","description":"Faults of the copy lens, which are corrected on every scan before anything else, the blank included. Radii are counted from the middle of the scan, half of its diagonal is 1. Measured by `rollbook lens`.","examples":["{ lateral: { red: [0.00031, -0.00008], blue: [-0.00022, 0.00005] } }"],"keys":["lateral","distortion","falloff"]};
const k49: KeyDescription = {"type":"object","description":"Lateral colour (lateral chromatic aberration): how much larger than green the lens draws red and blue.","examples":["{ red: [0.00031, -0.00008], blue: [-0.00022, 0.00005] }"],"keys":["red","blue"]};
const k50: KeyDescription = {"type":"array","description":"[a, b] of a + b·r²: how much farther from the middle than green the lens draws this colour. Both together, times half of the diagonal in pixels, is its shift in the corner.","unit":"fraction of the radius","layout":"flow","minimum":-0.02,"maximum":0.02,"default":[0],"examples":["[0.00031, -0.00008]"],"minItems":1,"maxItems":2};
const k51: KeyDescription = {"type":"number","minimum":-0.02,"maximum":0.02};
const k52: KeyDescription = {"type":"array","description":"[k1, k2] of k1·r² + k2·r⁴: how much farther from the middle the lens draws everything. Above 0: pincushion distortion, below: barrel. Joins have to be measured again when it changes.","unit":"fraction of the radius","layout":"flow","minimum":-0.1,"maximum":0.1,"default":[0],"examples":["[-0.0042]"],"minItems":1,"maxItems":2};
const k53: KeyDescription = {"type":"number","minimum":-0.1,"maximum":0.1};
const k54: KeyDescription = {"type":"object","description":"Falloff of the light and the lens over the scan, for rolls without a blank; a blank takes out what there is and makes it void. Where the base was read the light counts as 1, so the base keeps its density.","examples":["{ radial: [-0.42, -0.08], gradient: [0.06, -0.02] }"],"keys":["radial","oval","gradient"]};
const k55: KeyDescription = {"type":"array","description":"[a, b] of a·r² + b·r⁴: light against the middle of the scan. Both together are that in the corner; below 0 it is darker there.","unit":"EV","layout":"flow","minimum":-4,"maximum":4,"default":[0],"examples":["[-0.42, -0.08]"],"minItems":1,"maxItems":2};
const k56: KeyDescription = {"type":"number","minimum":-4,"maximum":4};
const k57: KeyDescription = {"type":"number","description":"c of c·(x² − y²): added towards the left and right sides, taken off towards top and bottom, as a light panel that is wider than high has it.","unit":"EV","minimum":-4,"maximum":4,"default":0,"examples":[0.05]};
const k58: KeyDescription = {"type":"array","description":"[right, down]: how the light changes from the middle to the right, and downwards.","unit":"EV per half of the diagonal","layout":"flow","minimum":-4,"maximum":4,"default":[0,0],"examples":["[0.06, -0.02]"],"minItems":2,"maxItems":2};
const k59: KeyDescription = {"type":"object","description":"How densities of the film are turned back into what the film was exposed to.","examples":["{ gamma: 0.6 }"],"keys":["base","gamma","curve","unmix","colour"]};
const k60: KeyDescription = {"type":"object","description":"The base: density of unexposed, developed film (base plus fog, and the orange mask of colour film), and where it was read.","layout":"flow","examples":["{ density: [0.31, 0.60, 0.76], read: { scan: LEADER.dng, area: [0.40, 0.40, 0.20, 0.20] } }"],"keys":["density","read"]};
const k61: KeyDescription = {"type":"array","description":"Density of the base in red, green and blue. With a blank it is the film's alone; without one it carries the light's colour too.","unit":"density","layout":"flow","minimum":-1,"maximum":5,"default":[0,0,0],"examples":["[0.31, 0.60, 0.76]"],"minItems":3,"maxItems":3};
const k62: KeyDescription = {"type":"number","minimum":-1,"maximum":5};
const k63: KeyDescription = {"type":"object","description":"Where the base was read, inherited as a whole. Written by `rollbook base --write`; read again whenever you like.","layout":"flow","whole":true,"examples":["{ scan: LEADER.dng, area: [0.40, 0.40, 0.20, 0.20], scatter: 0.004 }"],"keys":["scan","area","scatter"],"requiredKeys":["scan"]};
const k64: KeyDescription = {"type":"string","description":"Name of the scan that shows rebate or leader.","isPath":true,"examples":["LEADER.dng"],"required":true};
const k65: KeyDescription = {"type":"array","description":"The area that was read, as [left, top, width, height].","unit":"fractions of the scan's width and height","layout":"flow","examples":["[0.40, 0.40, 0.20, 0.20]"],"minItems":4,"maxItems":4};
const k66: KeyDescription = {"type":"number","description":"Left edge.","minimum":0,"maximum":1};
const k67: KeyDescription = {"type":"number","description":"Top edge.","minimum":0,"maximum":1};
const k68: KeyDescription = {"type":"number","description":"Width.","minimum":0.0001,"maximum":1};
const k69: KeyDescription = {"type":"number","description":"Height.","minimum":0.0001,"maximum":1};
const k70: KeyDescription = {"type":["number","array"],"description":"Standard deviation of the densities inside the area: one number, or one each for red, green and blue. A record of how good the reading was.","unit":"density","layout":"flow","minimum":0,"maximum":2,"examples":[0.004],"minItems":3,"maxItems":3};
const k71: KeyDescription = {"type":"number","minimum":0,"maximum":2};
const k72: KeyDescription = {"type":["number","array"],"description":"Slope of the straight part of the characteristic curve: one number, or one each for red, green and blue. Give gamma or curve, not both.","unit":"density per log10 exposure","layout":"flow","minimum":0.1,"maximum":3,"default":0.55,"defaultText":"0.55; 0.62 for black-and-white negatives","examples":["[0.53, 0.56, 0.63]"],"minItems":3,"maxItems":3};
const k73: KeyDescription = {"type":"number","minimum":0.1,"maximum":3};
const k74: KeyDescription = {"type":"object","description":"The film's characteristic curve as a table, inherited as a whole. Give red, green and blue, or density alone for black-and-white film. Give gamma or curve, not both.","whole":true,"examples":["{ logH: [-2, -1, 0], density: [0.1, 0.5, 1.1] }"],"keys":["logH","red","green","blue","density","mid"],"requiredKeys":["logH"]};
const k75: KeyDescription = {"type":"array","description":"The exposures of the table, ascending; each list of densities has one value for each of them.","unit":"log10 exposure","layout":"flow","minimum":-8,"maximum":8,"examples":["[-2.5, -2, -1.5, -1, -0.5, 0, 0.5]"],"minItems":2,"maxItems":256,"required":true};
const k76: KeyDescription = {"type":"number","minimum":-8,"maximum":8};
const k77: KeyDescription = {"type":"array","description":"Density at each exposure of logH. It never falls as exposure rises.","unit":"density","layout":"flow","minimum":-1,"maximum":6,"examples":["[0.2, 0.22, 0.38, 0.63, 0.9, 1.16, 1.4]"],"minItems":2,"maxItems":256};
const k78: KeyDescription = {"type":"number","minimum":-1,"maximum":6};
const k79: KeyDescription = {"type":"number","description":"The exposure of mid-grey on the table's own axis.","unit":"log10 exposure","minimum":-8,"maximum":8,"defaultText":"where green density (density, on black-and-white film) is 0.70 above its minimum","examples":[-1.05]};
const k80: KeyDescription = {"type":"array","description":"3×3 matrix that takes the crosstalk of dyes and sensor out of the densities: rows give red, green and blue, columns are the scan's red, green and blue.","unit":"factors of density","layout":"rows","default":[[1,0,0],[0,1,0],[0,0,1]],"examples":["[[1.21, -0.17, -0.04], [-0.13, 1.25, -0.12], [-0.02, -0.19, 1.21]]"],"minItems":3,"maxItems":3};
const k81: KeyDescription = {"type":"array","description":"One row: the shares of the scan's red, green and blue density.","layout":"flow","minimum":-4,"maximum":4,"minItems":3,"maxItems":3};
const k82: KeyDescription = {"type":"array","description":"3×3 matrix from the film's exposures to linear light with sRGB's primaries. Each row adds up to 1, so that neutrals stay neutral.","unit":"factors of linear light","layout":"rows","default":[[1,0,0],[0,1,0],[0,0,1]],"examples":["[[1.32, -0.28, -0.04], [-0.11, 1.24, -0.13], [0.01, -0.22, 1.21]]"],"minItems":3,"maxItems":3};
const k83: KeyDescription = {"type":"array","description":"One row: the shares of the film's red, green and blue exposure. They add up to 1.","layout":"flow","minimum":-5,"maximum":5,"minItems":3,"maxItems":3};
const k84: KeyDescription = {"type":"number","minimum":-5,"maximum":5};
const k85: KeyDescription = {"type":"object","description":"How the picture is printed from the negative: brightness, colour balance and tone.","examples":["{ exposure: 0.33, contrast: 1.5 }"],"keys":["exposure","filtration","contrast","toe","shoulder","black","saturation","toning","curve","local"]};
const k86: KeyDescription = {"type":"number","description":"Brightness of the positive: 1 EV more doubles the light.","unit":"EV","minimum":-10,"maximum":10,"default":0,"examples":[0.33]};
const k87: KeyDescription = {"type":"object","description":"Colour balance as in a colour enlarger: a filter of the cast's colour removes the cast.","layout":"flow","examples":["{ cyan: 0, magenta: 4, yellow: 7 }"],"keys":["cyan","magenta","yellow"]};
const k88: KeyDescription = {"type":"number","description":"Cyan filter: adds to the negative's red density.","unit":"CC (0.01 density)","minimum":-200,"maximum":200,"default":0,"examples":[0]};
const k89: KeyDescription = {"type":"number","description":"Magenta filter: adds to the negative's green density.","unit":"CC (0.01 density)","minimum":-200,"maximum":200,"default":0,"examples":[4]};
const k90: KeyDescription = {"type":"number","description":"Yellow filter: adds to the negative's blue density.","unit":"CC (0.01 density)","minimum":-200,"maximum":200,"default":0,"examples":[7]};
const k91: KeyDescription = {"type":["number","string"],"description":"Contrast of the print: the slope of the print curve at mid-grey, as d log Y / d log H; or a paper's contrast, as its ISO range (ISO 6846) from R40 to R250 or as a grade from -1 to 5. Paper of R110 holds a negative whose densities span 1.10. Mid-grey itself stays where it is.","unit":"slope at mid-grey","minimum":0.2,"maximum":5,"default":1.35,"defaultText":"1.35; 1 for slides","examples":[1.5,"R110","grade 2"]};
const k92: KeyDescription = {"type":"number","description":"Opens (above 0) or closes (below 0) the shadows; mid-grey stays. In version 1, 0 to 1: how early the shadows begin to flatten.","unit":"share","minimum":-1,"maximum":1,"default":0,"defaultText":"0; 0.3 in version 1","examples":[0.3]};
const k93: KeyDescription = {"type":"number","description":"Opens (above 0) or holds back (below 0) the highlights; mid-grey stays. In version 1, 0 to 1: how early the highlights begin to flatten.","unit":"share","minimum":-1,"maximum":1,"default":0,"defaultText":"0; 0.4 in version 1","examples":[-0.2]};
const k94: KeyDescription = {"type":"number","description":"Lightness of the deepest black.","unit":"L*","minimum":0,"maximum":30,"default":0.5,"examples":[0.5]};
const k95: KeyDescription = {"type":"number","description":"Strength of colours: 0 is grey, 1 leaves them as they are.","unit":"factor","minimum":0,"maximum":3,"default":1,"examples":[1.1]};
const k96: KeyDescription = {"type":"object","description":"Colours of the print itself: toned silver of black-and-white prints, and the paper's base.","examples":["{ highlights: { hue: 75, strength: 12 } }"],"keys":["shadows","highlights","paper"]};
const k97: KeyDescription = {"type":"object","description":"Colour of the shadows of a black-and-white print, at unchanged L*. Its strength is full at mid-grey where highlights have the same.","layout":"flow","examples":["{ hue: 50, strength: 8 }"],"keys":["hue","strength"]};
const k98: KeyDescription = {"type":"number","description":"Hue: 0 is pink red, 90 yellow, 180 green, 270 blue.","unit":"degrees, CIELAB hue angle","minimum":0,"maximum":360,"default":60,"examples":[50]};
const k99: KeyDescription = {"type":"number","description":"Chroma: 0 leaves it neutral.","unit":"C*ab","minimum":0,"maximum":60,"default":0,"examples":[8]};
const k100: KeyDescription = {"type":"object","description":"Colour of the highlights of a black-and-white print, at unchanged L*.","layout":"flow","examples":["{ hue: 75, strength: 12 }"],"keys":["hue","strength"]};
const k101: KeyDescription = {"type":"number","description":"Hue: 0 is pink red, 90 yellow, 180 green, 270 blue.","unit":"degrees, CIELAB hue angle","minimum":0,"maximum":360,"default":60,"examples":[75]};
const k102: KeyDescription = {"type":"number","description":"Chroma: 0 leaves it neutral.","unit":"C*ab","minimum":0,"maximum":60,"default":0,"examples":[12]};
const k103: KeyDescription = {"type":"object","description":"Colour of the paper's base, on any film: it multiplies the light of every tone, and white becomes as light as such a colour can be.","layout":"flow","examples":["{ hue: 85, strength: 4 }"],"keys":["hue","strength"]};
const k104: KeyDescription = {"type":"number","description":"Hue: 0 is pink red, 90 yellow, 180 green, 270 blue.","unit":"degrees, CIELAB hue angle","minimum":0,"maximum":360,"default":60,"examples":[85]};
const k105: KeyDescription = {"type":"number","description":"Chroma: 0 leaves it neutral.","unit":"C*ab","minimum":0,"maximum":30,"default":0,"examples":[4]};
const k106: KeyDescription = {"type":"array","description":"Fine adjustment of the tones after the print curve: pairs of [L* in, L* out], ascending.","unit":"L*","layout":"rows","default":[],"examples":["[[0, 0], [25, 23], [75, 78], [100, 100]]"],"maxItems":64};
const k107: KeyDescription = {"type":"array","description":"One point: [L* in, L* out].","layout":"flow","minItems":2,"maxItems":2};
const k108: KeyDescription = {"type":"number","description":"Lightness before.","unit":"L*","minimum":0,"maximum":100};
const k109: KeyDescription = {"type":"number","description":"Lightness after.","unit":"L*","minimum":0,"maximum":100};
const k110: KeyDescription = {"type":"array","description":"Local exposure (dodging and burning): areas that get exposure, filtration or contrast of their own. Places are fractions of the picture as shown, after crop, mirroring and turn: x from its left edge, y from its top edge. Where areas overlap, exposures and filters add up and contrasts multiply.","default":[],"examples":["[{ name: sky, line: [[0.5, 0.1], [0.5, 0.5]], exposure: -0.8 }]"],"maxItems":64};
const k111: KeyDescription = {"type":"object","description":"One area: its shape (line, oval or polygon, one of the three) and what it does.","layout":"flow","examples":["{ name: sky, line: [[0.5, 0.1], [0.5, 0.5]], exposure: -0.8 }"],"keys":["id","name","line","oval","polygon","turn","feather","exposure","filtration","contrast"]};
const k112: KeyDescription = {"type":"string","description":"Identity of the area, which stays when it is moved or renamed: merges and reviews go by it, or by the name where there is none.","examples":["a1"]};
const k113: KeyDescription = {"type":"string","description":"What the area covers, for reviews.","examples":["sky"]};
const k114: KeyDescription = {"type":"array","description":"A gradient along a line, as [[x, y], [x, y]]: the area counts whole at the first point and before it, and not at all at the second and beyond it.","unit":"fractions of the picture as shown","layout":"flow","examples":["[[0.5, 0.1], [0.5, 0.5]]"],"minItems":2,"maxItems":2};
const k115: KeyDescription = {"type":"array","description":"A point: [x, y].","layout":"flow","minItems":2,"maxItems":2};
const k116: KeyDescription = {"type":"number","description":"From the picture's left edge.","unit":"fraction of the width","minimum":-1,"maximum":2};
const k117: KeyDescription = {"type":"number","description":"From the picture's top edge.","unit":"fraction of the height","minimum":-1,"maximum":2};
const k118: KeyDescription = {"type":"array","description":"An oval, as [x, y, horizontal radius, vertical radius].","unit":"fractions of the picture as shown","layout":"flow","examples":["[0.42, 0.35, 0.1, 0.18]"],"minItems":4,"maxItems":4};
const k119: KeyDescription = {"type":"number","description":"Centre, from the left edge.","unit":"fraction of the width","minimum":-1,"maximum":2};
const k120: KeyDescription = {"type":"number","description":"Centre, from the top edge.","unit":"fraction of the height","minimum":-1,"maximum":2};
const k121: KeyDescription = {"type":"number","description":"Radius to the sides, before it is turned.","unit":"fraction of the width","minimum":0.002,"maximum":2};
const k122: KeyDescription = {"type":"number","description":"Radius upwards and downwards, before it is turned.","unit":"fraction of the height","minimum":0.002,"maximum":2};
const k123: KeyDescription = {"type":"array","description":"A polygon, as its corners in order. Its sides must not cross.","unit":"fractions of the picture as shown","layout":"flow","examples":["[[0.1, 0.6], [0.5, 0.55], [0.9, 0.6], [0.9, 1], [0.1, 1]]"],"minItems":3,"maxItems":64};
const k124: KeyDescription = {"type":"number","description":"Turns an oval about its centre.","unit":"degrees clockwise","minimum":-180,"maximum":180,"default":0,"examples":[20]};
const k125: KeyDescription = {"type":"number","description":"Width of the soft edge of an oval or a polygon, half of it inside and half outside of the outline.","unit":"fraction of the picture's longest side","minimum":0,"maximum":1,"default":0.1,"examples":[0.15]};
const k126: KeyDescription = {"type":"number","description":"Brightness of the area, on top of the frame's: above 0 dodges (lighter), below 0 burns (darker).","unit":"EV","minimum":-5,"maximum":5,"default":0,"examples":[-0.8]};
const k127: KeyDescription = {"type":"number","description":"Contrast of the area, as a factor of the frame's; mid-grey stays.","unit":"factor","minimum":0.25,"maximum":4,"default":1,"examples":[1.2]};
const k128: KeyDescription = {"type":"array","description":"The files to write for each frame. The nearest list replaces lists further out.","default":[{"name":"positive","type":"jpeg"}],"examples":["[{ name: archive, type: tiff, depth: 16, space: romm }]"],"maxItems":32};
const k129: KeyDescription = {"type":"object","description":"One kind of file to write.","layout":"flow","examples":["{ name: web, type: jpeg, quality: 90, space: srgb, long: 2400 }"],"keys":["name","type","file","depth","quality","space","long","sharpen","compression","print"],"requiredKeys":["name","type"]};
const k130: KeyDescription = {"type":"string","description":"Name of this output, for `--output` and for the folder it is written to: letters, digits, space, and _ . - after the first character.","examples":["archive"],"required":true};
const k131: KeyDescription = {"type":"string","description":"File type.","enum":["tiff","jpeg","png","webp","avif"],"examples":["tiff"],"required":true};
const k132: KeyDescription = {"type":"string","description":"Name of each picture's file, without its ending: text in which {roll}, {frame}, {title}, {scan} and {output} stand for the recipe's name, the frame's id and title, its scan's name and this output's name. A frame without a title leaves {title} out. Never a path: none of / \\ : * ? \" < > |.","default":"{roll}-{frame}","examples":["\"{roll}-{frame}-{title}\""]};
const k133: KeyDescription = {"type":"number","description":"Bits per channel. 16 bits need tiff or png.","unit":"bits per channel","enum":[8,16],"default":8,"defaultText":"16 for tiff, 8 otherwise","examples":[16]};
const k134: KeyDescription = {"type":"integer","description":"Quality of lossy files (jpeg, webp, avif).","unit":"encoder's scale","minimum":1,"maximum":100,"default":90,"examples":[90]};
const k135: KeyDescription = {"type":"string","description":"Colour space: sRGB (IEC 61966-2-1), Display P3, Adobe RGB (1998), ROMM RGB (ISO 22028-2). Its profile is embedded.","enum":["srgb","p3","adobe","romm"],"default":"srgb","examples":["srgb"]};
const k136: KeyDescription = {"type":"integer","description":"Length of the longest side. Pictures are made smaller, never larger.","unit":"pixels","minimum":16,"maximum":60000,"defaultText":"the picture's own size","examples":[2400]};
const k137: KeyDescription = {"type":"number","description":"Output sharpening after resizing: 0 none, 1 strong.","unit":"share","minimum":0,"maximum":1,"default":0,"examples":[0.3]};
const k138: KeyDescription = {"type":"string","description":"Lossless compression of tiff files.","enum":["none","deflate"],"default":"deflate","examples":["deflate"]};
const k139: KeyDescription = {"type":"object","description":"Makes the file a sheet to print: the picture on its paper, at the paper's size, in the printer's colours. For tiff and jpeg.","layout":"flow","examples":["{ paper: A4, border: 15, profile: ../profiles/matte.icc }"],"keys":["paper","orientation","border","fit","length","place","resolution","profile","intent","blackPointCompensation"],"requiredKeys":["paper"]};
const k140: KeyDescription = {"type":["string","array"],"description":"Size of the paper: a name (A6 to A2 of ISO 216, or sides in centimetres or inches) or [width, height] in millimetres.","unit":"a name, or millimetres","layout":"flow","minimum":30,"maximum":3000,"enum":["A6","A5","A4","A3","A2","9x13cm","10x15cm","13x18cm","18x24cm","24x30cm","30x40cm","40x50cm","50x60cm","4x6in","5x7in","8x10in","8x12in","8.5x11in","11x14in","11x17in","12x16in","16x20in","20x24in"],"examples":["A4","[210, 594]"],"minItems":2,"maxItems":2,"required":true};
const k141: KeyDescription = {"type":"number","minimum":30,"maximum":3000};
const k142: KeyDescription = {"type":"string","description":"How the paper lies: as the picture does, its long side along the picture's, or always upright or lying.","enum":["picture","portrait","landscape"],"default":"picture","examples":["picture"]};
const k143: KeyDescription = {"type":["number","array"],"description":"Paper that stays white at the edges, at the least: one width, or [top, right, bottom, left].","unit":"mm","layout":"flow","minimum":0,"maximum":500,"default":10,"examples":[15,"[20, 20, 30, 20]"],"minItems":4,"maxItems":4};
const k144: KeyDescription = {"type":"number","minimum":0,"maximum":500};
const k145: KeyDescription = {"type":"string","description":"whole: all of the picture, as large as the borders leave; fill: the space between the borders is filled, and the middle of the picture printed.","enum":["whole","fill"],"default":"whole","examples":["whole"]};
const k146: KeyDescription = {"type":"number","description":"Longest side of the picture on the paper. A picture never reaches into the borders.","unit":"mm","minimum":10,"maximum":3000,"defaultText":"as large as the borders leave","examples":[180]};
const k147: KeyDescription = {"type":"array","description":"Where the picture lies between the borders: [across, down]; [0, 0] is the top left, [0.5, 0.5] the middle.","unit":"fraction of the free space","layout":"flow","minimum":0,"maximum":1,"default":[0.5,0.5],"examples":["[0.5, 0.4]"],"minItems":2,"maxItems":2};
const k148: KeyDescription = {"type":"number","minimum":0,"maximum":1};
const k149: KeyDescription = {"type":"integer","description":"Pixels per inch of paper, also stated in the file. Pictures are enlarged or made smaller to fit.","unit":"ppi","minimum":72,"maximum":1440,"default":300,"examples":[360]};
const k150: KeyDescription = {"type":"string","description":"ICC profile of the printer with its paper, relative to this file. The picture is converted to its colours, and it is embedded. Without one the file stays in the output's space.","isPath":true,"examples":["../profiles/matte.icc"]};
const k151: KeyDescription = {"type":"string","description":"Rendering intent (ISO 15076-1) of the conversion to the profile: perceptual, media-relative colorimetric, saturation or ICC-absolute colorimetric.","enum":["perceptual","relative-colorimetric","saturation","absolute-colorimetric"],"default":"relative-colorimetric","examples":["perceptual"]};
const k152: KeyDescription = {"type":"boolean","description":"Scales the tones so that black becomes the paper's deepest black (ISO 18619) and no shadow is cut off. For the relative-colorimetric intent; the others have their own rule.","default":true,"examples":[false]};
const k153: KeyDescription = {"type":"object","description":"The frames, named as on the film's edge: up to three digits and at most one capital letter, in quotes.","examples":["{ \"12A\": { scan: H0013.dng } }"],"keyPattern":"^[0-9]{1,3}[A-Z]?$"};
const k154: KeyDescription = {"type":"object","description":"One picture on the film.","examples":["{ scan: H0001.dng, turn: 90 }"],"keys":["scan","scans","exposures","channels","unused","join","area","turn","mirror","skip","choice","rank","light","negative","positive","spots","title","exposed","iptc","note"]};
const k155: KeyDescription = {"type":"string","description":"Name of the frame's scan, relative to the roll's `scans` folder. Give scan or scans, not both.","isPath":true,"examples":["H0001.dng"]};
const k156: KeyDescription = {"type":"array","description":"Names of the scans that are joined into this frame. The first one sets the frame's exposure and axes.","layout":"flow","examples":["[H0002a.dng, H0002b.dng]"],"minItems":1,"maxItems":64};
const k157: KeyDescription = {"type":"string","description":"Name of a scan, relative to the roll's `scans` folder.","isPath":true};
const k158: KeyDescription = {"type":"array","description":"Names of scans of this one picture that are merged into one scan: at several shutter times for a dense negative or slide, or at the same time so that noise and dust that moved average out. The first one sets the frame's axes. Give exposures in place of scan.","layout":"flow","examples":["[H0003.dng, H0004.dng, H0005.dng]"],"minItems":1,"maxItems":16};
const k159: KeyDescription = {"type":"object","description":"Names of three scans of this one picture in three-colour light: each under one narrow-band light, red, green and blue, that gives its channel. light.blank names the bare light of each. Give channels in place of scan.","layout":"flow","examples":["{ red: H0006-red.dng, green: H0006-green.dng, blue: H0006-blue.dng }"],"keys":["red","green","blue"],"requiredKeys":["red","green","blue"]};
const k160: KeyDescription = {"type":"string","description":"Name of the scan under red light, relative to the roll's `scans` folder.","isPath":true,"examples":["H0006-red.dng"],"required":true};
const k161: KeyDescription = {"type":"string","description":"Name of the scan under green light, relative to the roll's `scans` folder. It sets the frame's axes.","isPath":true,"examples":["H0006-green.dng"],"required":true};
const k162: KeyDescription = {"type":"string","description":"Name of the scan under blue light, relative to the roll's `scans` folder.","isPath":true,"examples":["H0006-blue.dng"],"required":true};
const k163: KeyDescription = {"type":"array","description":"Other scans of the same picture, which was photographed again. They stay on disk and make no frame of their own.","layout":"flow","examples":["[H0003.dng]"],"minItems":1,"maxItems":64};
const k164: KeyDescription = {"type":"array","description":"Where each of `scans` lies on the first one, as [x, y, angle, exposure]. Measured once, then kept. Where no exposure is stated, each scan is matched to those before it in the list when it is rendered.","layout":"rows","examples":["[[0, 0, 0], [3812.4, -6.2, 0.03]]","[[0, 0, 0, 0], [3812.4, -6.2, 0.03, [0.012, 0.014, 0.011]]]"],"minItems":1,"maxItems":64};
const k165: KeyDescription = {"type":"array","description":"Place of one scan: [x, y, angle, exposure].","layout":"flow","minItems":3,"maxItems":4};
const k166: KeyDescription = {"type":"number","description":"To the right.","unit":"pixels","minimum":-200000,"maximum":200000};
const k167: KeyDescription = {"type":"number","description":"Downwards.","unit":"pixels","minimum":-200000,"maximum":200000};
const k168: KeyDescription = {"type":"number","description":"Turned clockwise.","unit":"degrees","minimum":-45,"maximum":45};
const k169: KeyDescription = {"type":["number","array"],"description":"Added to the scan so that it matches the first: one number, or one each for red, green and blue. State it for all scans or for none.","unit":"EV","layout":"flow","minimum":-4,"maximum":4,"minItems":3,"maxItems":3};
const k170: KeyDescription = {"type":"object","description":"The picture's place in the scan, for cropping and straightening. Fractions are of the scan as decoded, before mirroring and turning.","layout":"flow","examples":["{ left: 0.052, top: 0.061, width: 0.894, height: 0.880, tilt: -0.4 }"],"keys":["left","top","width","height","tilt"]};
const k171: KeyDescription = {"type":"number","description":"Left edge.","unit":"fraction of the scan's width","minimum":0,"maximum":1,"default":0,"examples":[0.052]};
const k172: KeyDescription = {"type":"number","description":"Top edge.","unit":"fraction of the scan's height","minimum":0,"maximum":1,"default":0,"examples":[0.061]};
const k173: KeyDescription = {"type":"number","description":"Width.","unit":"fraction of the scan's width","minimum":0.001,"maximum":1,"default":1,"examples":[0.894]};
const k174: KeyDescription = {"type":"number","description":"Height.","unit":"fraction of the scan's height","minimum":0.001,"maximum":1,"default":1,"examples":[0.88]};
const k175: KeyDescription = {"type":"number","description":"Clockwise rotation of the picture in the scan; the positive is rotated back about the area's centre.","unit":"degrees","minimum":-45,"maximum":45,"default":0,"examples":[-0.4]};
const k176: KeyDescription = {"type":"number","description":"Turns the picture upright, after cropping and mirroring. The camera's orientation tag is never used.","unit":"degrees clockwise","enum":[0,90,180,270],"default":0,"examples":[90]};
const k177: KeyDescription = {"type":"boolean","description":"true when the emulsion faced the camera: swaps left and right.","default":false,"examples":[true]};
const k178: KeyDescription = {"type":"boolean","description":"true keeps the frame in the recipe but writes no picture of it.","default":false,"examples":[true]};
const k179: KeyDescription = {"type":"string","description":"Whether the frame is chosen. It changes nothing in the picture, and rejected frames are written unless they are left out on purpose. Exported pictures state it as xmp:Rating: −1 for reject.","enum":["keep","reject"],"examples":["keep"]};
const k180: KeyDescription = {"type":"number","description":"How good the frame is among those of the roll. It changes nothing in the picture. Exported pictures state it as xmp:Rating, where choice is not reject.","unit":"5 highest","enum":[1,2,3,4,5],"examples":[4]};
const k181: KeyDescription = {"type":"string","description":"The picture's title, for its metadata.","examples":["Ferry at the east pier"]};
const k182: KeyDescription = {"type":"string","description":"A note for people. It changes nothing in the picture.","examples":["bow wave, hold the sky"]};
const k183: KeyDescription = {"type":"object","description":"Size and SHA-256 of each scan by its name, so that the same recipe means the same picture. Written by `rollbook lock`, checked before rendering.","examples":["H0001.dng:\n  size: 51839204\n  sha256: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"]};
const k184: KeyDescription = {"type":"object","description":"What a scan's file was when the recipe was locked.","examples":["{ size: 51839204, sha256: 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08 }"],"keys":["size","sha256"],"requiredKeys":["size","sha256"]};
const k185: KeyDescription = {"type":"integer","description":"Size of the file.","unit":"bytes","minimum":0,"maximum":9007199254740991,"examples":[51839204],"required":true};
const k186: KeyDescription = {"type":"string","description":"SHA-256 of the file (FIPS 180-4).","unit":"64 hexadecimal digits","examples":["9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"],"required":true};
const k187: KeyDescription = {"type":"object","description":"Digests of the values that `rollbook new` found on the scans. A value that does not have its digest any more was changed by a person: renewing the automatic values keeps it.","keys":["roll","scans"]};
const k188: KeyDescription = {"type":"object","description":"Digests of the roll's values.","layout":"flow","examples":["{ base: kqzbwmrt }"],"keys":["blank","flare","times","base","curve","filtration","contrast","toe","shoulder"]};
const k189: KeyDescription = {"type":"string","description":"Digest of an automatic value, and of the comments that were written above it.","examples":["kqzbwmrt"]};
const k190: KeyDescription = {"type":"object","description":"Digests of the frames' values, by the name of the frame's first scan.","examples":["{ H0001.dng: { area: kqzbwmrt } }"]};
const k191: KeyDescription = {"type":"object","description":"Digests of one frame's values.","layout":"flow","keys":["area","exposure","contrast"]};
const k192: KeyDescription = {"type":"object","description":"A kind of film in a kind of development: what rolls of it have in common.","keys":["version","title","film","iso","format","process","negative","positive","output","note"],"requiredKeys":["version"]};
const k193: KeyDescription = {"type":"string","description":"The stock's name.","examples":["Northlight 400"]};
const k194: KeyDescription = {"type":"number","description":"The film's box speed.","unit":"ISO speed","minimum":0.1,"maximum":100000,"examples":[400]};
const k195: KeyDescription = {"type":"string","description":"How the film was developed: developer, dilution, time, temperature, in free text.","examples":["C-41, 3 min 15 s at 37.8 °C"]};

/** By kind of recipe and path pattern ("frames.*.positive.exposure"; the root is ""): what is known of the key. */
export const keyTable: Readonly<Record<"roll" | "stock", Readonly<Record<string, KeyDescription>>>> = {
  roll: {
    "": k0,
    "version": k1,
    "title": k2,
    "stock": k3,
    "film": k4,
    "format": k5,
    "format.*": k6,
    "exposed": k7,
    "exposed.camera": k8,
    "exposed.lens": k9,
    "exposed.date": k10,
    "exposed.time": k11,
    "exposed.rated": k12,
    "exposed.push": k13,
    "exposed.place": k14,
    "exposed.coordinates": k15,
    "exposed.coordinates.0": k16,
    "exposed.coordinates.1": k17,
    "exposed.focal": k18,
    "exposed.aperture": k19,
    "exposed.shutter": k20,
    "exposed.filter": k21,
    "exposed.developer": k22,
    "iptc": k23,
    "iptc.caption": k24,
    "iptc.keywords": k25,
    "iptc.keywords.*": k26,
    "iptc.creator": k27,
    "iptc.copyright": k28,
    "scans": k29,
    "light": k30,
    "light.blank": k31,
    "light.blank.red": k32,
    "light.blank.green": k33,
    "light.blank.blue": k34,
    "light.flare": k35,
    "light.flare.*": k36,
    "light.times": k37,
    "light.spots": k38,
    "light.spots.*": k39,
    "light.spots.*.line": k40,
    "light.spots.*.line.*": k41,
    "light.spots.*.line.*.0": k42,
    "light.spots.*.line.*.1": k43,
    "light.spots.*.width": k44,
    "light.spots.*.0": k45,
    "light.spots.*.1": k46,
    "light.spots.*.2": k47,
    "light.lens": k48,
    "light.lens.lateral": k49,
    "light.lens.lateral.red": k50,
    "light.lens.lateral.red.*": k51,
    "light.lens.lateral.blue": k50,
    "light.lens.lateral.blue.*": k51,
    "light.lens.distortion": k52,
    "light.lens.distortion.*": k53,
    "light.lens.falloff": k54,
    "light.lens.falloff.radial": k55,
    "light.lens.falloff.radial.*": k56,
    "light.lens.falloff.oval": k57,
    "light.lens.falloff.gradient": k58,
    "light.lens.falloff.gradient.*": k56,
    "negative": k59,
    "negative.base": k60,
    "negative.base.density": k61,
    "negative.base.density.*": k62,
    "negative.base.read": k63,
    "negative.base.read.scan": k64,
    "negative.base.read.area": k65,
    "negative.base.read.area.0": k66,
    "negative.base.read.area.1": k67,
    "negative.base.read.area.2": k68,
    "negative.base.read.area.3": k69,
    "negative.base.read.scatter": k70,
    "negative.base.read.scatter.*": k71,
    "negative.gamma": k72,
    "negative.gamma.*": k73,
    "negative.curve": k74,
    "negative.curve.logH": k75,
    "negative.curve.logH.*": k76,
    "negative.curve.red": k77,
    "negative.curve.red.*": k78,
    "negative.curve.green": k77,
    "negative.curve.green.*": k78,
    "negative.curve.blue": k77,
    "negative.curve.blue.*": k78,
    "negative.curve.density": k77,
    "negative.curve.density.*": k78,
    "negative.curve.mid": k79,
    "negative.unmix": k80,
    "negative.unmix.*": k81,
    "negative.unmix.*.*": k56,
    "negative.colour": k82,
    "negative.colour.*": k83,
    "negative.colour.*.*": k84,
    "positive": k85,
    "positive.exposure": k86,
    "positive.filtration": k87,
    "positive.filtration.cyan": k88,
    "positive.filtration.magenta": k89,
    "positive.filtration.yellow": k90,
    "positive.contrast": k91,
    "positive.toe": k92,
    "positive.shoulder": k93,
    "positive.black": k94,
    "positive.saturation": k95,
    "positive.toning": k96,
    "positive.toning.shadows": k97,
    "positive.toning.shadows.hue": k98,
    "positive.toning.shadows.strength": k99,
    "positive.toning.highlights": k100,
    "positive.toning.highlights.hue": k101,
    "positive.toning.highlights.strength": k102,
    "positive.toning.paper": k103,
    "positive.toning.paper.hue": k104,
    "positive.toning.paper.strength": k105,
    "positive.curve": k106,
    "positive.curve.*": k107,
    "positive.curve.*.0": k108,
    "positive.curve.*.1": k109,
    "positive.local": k110,
    "positive.local.*": k111,
    "positive.local.*.id": k112,
    "positive.local.*.name": k113,
    "positive.local.*.line": k114,
    "positive.local.*.line.*": k115,
    "positive.local.*.line.*.0": k116,
    "positive.local.*.line.*.1": k117,
    "positive.local.*.oval": k118,
    "positive.local.*.oval.0": k119,
    "positive.local.*.oval.1": k120,
    "positive.local.*.oval.2": k121,
    "positive.local.*.oval.3": k122,
    "positive.local.*.polygon": k123,
    "positive.local.*.polygon.*": k115,
    "positive.local.*.polygon.*.0": k116,
    "positive.local.*.polygon.*.1": k117,
    "positive.local.*.turn": k124,
    "positive.local.*.feather": k125,
    "positive.local.*.exposure": k126,
    "positive.local.*.filtration": k87,
    "positive.local.*.filtration.cyan": k88,
    "positive.local.*.filtration.magenta": k89,
    "positive.local.*.filtration.yellow": k90,
    "positive.local.*.contrast": k127,
    "output": k128,
    "output.*": k129,
    "output.*.name": k130,
    "output.*.type": k131,
    "output.*.file": k132,
    "output.*.depth": k133,
    "output.*.quality": k134,
    "output.*.space": k135,
    "output.*.long": k136,
    "output.*.sharpen": k137,
    "output.*.compression": k138,
    "output.*.print": k139,
    "output.*.print.paper": k140,
    "output.*.print.paper.*": k141,
    "output.*.print.orientation": k142,
    "output.*.print.border": k143,
    "output.*.print.border.*": k144,
    "output.*.print.fit": k145,
    "output.*.print.length": k146,
    "output.*.print.place": k147,
    "output.*.print.place.*": k148,
    "output.*.print.resolution": k149,
    "output.*.print.profile": k150,
    "output.*.print.intent": k151,
    "output.*.print.blackPointCompensation": k152,
    "frames": k153,
    "frames.*": k154,
    "frames.*.scan": k155,
    "frames.*.scans": k156,
    "frames.*.scans.*": k157,
    "frames.*.exposures": k158,
    "frames.*.exposures.*": k157,
    "frames.*.channels": k159,
    "frames.*.channels.red": k160,
    "frames.*.channels.green": k161,
    "frames.*.channels.blue": k162,
    "frames.*.unused": k163,
    "frames.*.unused.*": k157,
    "frames.*.join": k164,
    "frames.*.join.*": k165,
    "frames.*.join.*.0": k166,
    "frames.*.join.*.1": k167,
    "frames.*.join.*.2": k168,
    "frames.*.join.*.3": k169,
    "frames.*.join.*.3.*": k56,
    "frames.*.area": k170,
    "frames.*.area.left": k171,
    "frames.*.area.top": k172,
    "frames.*.area.width": k173,
    "frames.*.area.height": k174,
    "frames.*.area.tilt": k175,
    "frames.*.turn": k176,
    "frames.*.mirror": k177,
    "frames.*.skip": k178,
    "frames.*.choice": k179,
    "frames.*.rank": k180,
    "frames.*.light": k30,
    "frames.*.light.blank": k31,
    "frames.*.light.blank.red": k32,
    "frames.*.light.blank.green": k33,
    "frames.*.light.blank.blue": k34,
    "frames.*.light.flare": k35,
    "frames.*.light.flare.*": k36,
    "frames.*.light.times": k37,
    "frames.*.light.spots": k38,
    "frames.*.light.spots.*": k39,
    "frames.*.light.spots.*.line": k40,
    "frames.*.light.spots.*.line.*": k41,
    "frames.*.light.spots.*.line.*.0": k42,
    "frames.*.light.spots.*.line.*.1": k43,
    "frames.*.light.spots.*.width": k44,
    "frames.*.light.spots.*.0": k45,
    "frames.*.light.spots.*.1": k46,
    "frames.*.light.spots.*.2": k47,
    "frames.*.light.lens": k48,
    "frames.*.light.lens.lateral": k49,
    "frames.*.light.lens.lateral.red": k50,
    "frames.*.light.lens.lateral.red.*": k51,
    "frames.*.light.lens.lateral.blue": k50,
    "frames.*.light.lens.lateral.blue.*": k51,
    "frames.*.light.lens.distortion": k52,
    "frames.*.light.lens.distortion.*": k53,
    "frames.*.light.lens.falloff": k54,
    "frames.*.light.lens.falloff.radial": k55,
    "frames.*.light.lens.falloff.radial.*": k56,
    "frames.*.light.lens.falloff.oval": k57,
    "frames.*.light.lens.falloff.gradient": k58,
    "frames.*.light.lens.falloff.gradient.*": k56,
    "frames.*.negative": k59,
    "frames.*.negative.base": k60,
    "frames.*.negative.base.density": k61,
    "frames.*.negative.base.density.*": k62,
    "frames.*.negative.base.read": k63,
    "frames.*.negative.base.read.scan": k64,
    "frames.*.negative.base.read.area": k65,
    "frames.*.negative.base.read.area.0": k66,
    "frames.*.negative.base.read.area.1": k67,
    "frames.*.negative.base.read.area.2": k68,
    "frames.*.negative.base.read.area.3": k69,
    "frames.*.negative.base.read.scatter": k70,
    "frames.*.negative.base.read.scatter.*": k71,
    "frames.*.negative.gamma": k72,
    "frames.*.negative.gamma.*": k73,
    "frames.*.negative.curve": k74,
    "frames.*.negative.curve.logH": k75,
    "frames.*.negative.curve.logH.*": k76,
    "frames.*.negative.curve.red": k77,
    "frames.*.negative.curve.red.*": k78,
    "frames.*.negative.curve.green": k77,
    "frames.*.negative.curve.green.*": k78,
    "frames.*.negative.curve.blue": k77,
    "frames.*.negative.curve.blue.*": k78,
    "frames.*.negative.curve.density": k77,
    "frames.*.negative.curve.density.*": k78,
    "frames.*.negative.curve.mid": k79,
    "frames.*.negative.unmix": k80,
    "frames.*.negative.unmix.*": k81,
    "frames.*.negative.unmix.*.*": k56,
    "frames.*.negative.colour": k82,
    "frames.*.negative.colour.*": k83,
    "frames.*.negative.colour.*.*": k84,
    "frames.*.positive": k85,
    "frames.*.positive.exposure": k86,
    "frames.*.positive.filtration": k87,
    "frames.*.positive.filtration.cyan": k88,
    "frames.*.positive.filtration.magenta": k89,
    "frames.*.positive.filtration.yellow": k90,
    "frames.*.positive.contrast": k91,
    "frames.*.positive.toe": k92,
    "frames.*.positive.shoulder": k93,
    "frames.*.positive.black": k94,
    "frames.*.positive.saturation": k95,
    "frames.*.positive.toning": k96,
    "frames.*.positive.toning.shadows": k97,
    "frames.*.positive.toning.shadows.hue": k98,
    "frames.*.positive.toning.shadows.strength": k99,
    "frames.*.positive.toning.highlights": k100,
    "frames.*.positive.toning.highlights.hue": k101,
    "frames.*.positive.toning.highlights.strength": k102,
    "frames.*.positive.toning.paper": k103,
    "frames.*.positive.toning.paper.hue": k104,
    "frames.*.positive.toning.paper.strength": k105,
    "frames.*.positive.curve": k106,
    "frames.*.positive.curve.*": k107,
    "frames.*.positive.curve.*.0": k108,
    "frames.*.positive.curve.*.1": k109,
    "frames.*.positive.local": k110,
    "frames.*.positive.local.*": k111,
    "frames.*.positive.local.*.id": k112,
    "frames.*.positive.local.*.name": k113,
    "frames.*.positive.local.*.line": k114,
    "frames.*.positive.local.*.line.*": k115,
    "frames.*.positive.local.*.line.*.0": k116,
    "frames.*.positive.local.*.line.*.1": k117,
    "frames.*.positive.local.*.oval": k118,
    "frames.*.positive.local.*.oval.0": k119,
    "frames.*.positive.local.*.oval.1": k120,
    "frames.*.positive.local.*.oval.2": k121,
    "frames.*.positive.local.*.oval.3": k122,
    "frames.*.positive.local.*.polygon": k123,
    "frames.*.positive.local.*.polygon.*": k115,
    "frames.*.positive.local.*.polygon.*.0": k116,
    "frames.*.positive.local.*.polygon.*.1": k117,
    "frames.*.positive.local.*.turn": k124,
    "frames.*.positive.local.*.feather": k125,
    "frames.*.positive.local.*.exposure": k126,
    "frames.*.positive.local.*.filtration": k87,
    "frames.*.positive.local.*.filtration.cyan": k88,
    "frames.*.positive.local.*.filtration.magenta": k89,
    "frames.*.positive.local.*.filtration.yellow": k90,
    "frames.*.positive.local.*.contrast": k127,
    "frames.*.spots": k38,
    "frames.*.spots.*": k39,
    "frames.*.spots.*.line": k40,
    "frames.*.spots.*.line.*": k41,
    "frames.*.spots.*.line.*.0": k42,
    "frames.*.spots.*.line.*.1": k43,
    "frames.*.spots.*.width": k44,
    "frames.*.spots.*.0": k45,
    "frames.*.spots.*.1": k46,
    "frames.*.spots.*.2": k47,
    "frames.*.title": k181,
    "frames.*.exposed": k7,
    "frames.*.exposed.camera": k8,
    "frames.*.exposed.lens": k9,
    "frames.*.exposed.date": k10,
    "frames.*.exposed.time": k11,
    "frames.*.exposed.rated": k12,
    "frames.*.exposed.push": k13,
    "frames.*.exposed.place": k14,
    "frames.*.exposed.coordinates": k15,
    "frames.*.exposed.coordinates.0": k16,
    "frames.*.exposed.coordinates.1": k17,
    "frames.*.exposed.focal": k18,
    "frames.*.exposed.aperture": k19,
    "frames.*.exposed.shutter": k20,
    "frames.*.exposed.filter": k21,
    "frames.*.exposed.developer": k22,
    "frames.*.iptc": k23,
    "frames.*.iptc.caption": k24,
    "frames.*.iptc.keywords": k25,
    "frames.*.iptc.keywords.*": k26,
    "frames.*.iptc.creator": k27,
    "frames.*.iptc.copyright": k28,
    "frames.*.note": k182,
    "note": k182,
    "fingerprints": k183,
    "fingerprints.*": k184,
    "fingerprints.*.size": k185,
    "fingerprints.*.sha256": k186,
    "automatic": k187,
    "automatic.roll": k188,
    "automatic.roll.blank": k189,
    "automatic.roll.flare": k189,
    "automatic.roll.times": k189,
    "automatic.roll.base": k189,
    "automatic.roll.curve": k189,
    "automatic.roll.filtration": k189,
    "automatic.roll.contrast": k189,
    "automatic.roll.toe": k189,
    "automatic.roll.shoulder": k189,
    "automatic.scans": k190,
    "automatic.scans.*": k191,
    "automatic.scans.*.area": k189,
    "automatic.scans.*.exposure": k189,
    "automatic.scans.*.contrast": k189,
  },
  stock: {
    "": k192,
    "version": k1,
    "title": k193,
    "film": k4,
    "iso": k194,
    "format": k5,
    "format.*": k6,
    "process": k195,
    "negative": k59,
    "negative.base": k60,
    "negative.base.density": k61,
    "negative.base.density.*": k62,
    "negative.base.read": k63,
    "negative.base.read.scan": k64,
    "negative.base.read.area": k65,
    "negative.base.read.area.0": k66,
    "negative.base.read.area.1": k67,
    "negative.base.read.area.2": k68,
    "negative.base.read.area.3": k69,
    "negative.base.read.scatter": k70,
    "negative.base.read.scatter.*": k71,
    "negative.gamma": k72,
    "negative.gamma.*": k73,
    "negative.curve": k74,
    "negative.curve.logH": k75,
    "negative.curve.logH.*": k76,
    "negative.curve.red": k77,
    "negative.curve.red.*": k78,
    "negative.curve.green": k77,
    "negative.curve.green.*": k78,
    "negative.curve.blue": k77,
    "negative.curve.blue.*": k78,
    "negative.curve.density": k77,
    "negative.curve.density.*": k78,
    "negative.curve.mid": k79,
    "negative.unmix": k80,
    "negative.unmix.*": k81,
    "negative.unmix.*.*": k56,
    "negative.colour": k82,
    "negative.colour.*": k83,
    "negative.colour.*.*": k84,
    "positive": k85,
    "positive.exposure": k86,
    "positive.filtration": k87,
    "positive.filtration.cyan": k88,
    "positive.filtration.magenta": k89,
    "positive.filtration.yellow": k90,
    "positive.contrast": k91,
    "positive.toe": k92,
    "positive.shoulder": k93,
    "positive.black": k94,
    "positive.saturation": k95,
    "positive.toning": k96,
    "positive.toning.shadows": k97,
    "positive.toning.shadows.hue": k98,
    "positive.toning.shadows.strength": k99,
    "positive.toning.highlights": k100,
    "positive.toning.highlights.hue": k101,
    "positive.toning.highlights.strength": k102,
    "positive.toning.paper": k103,
    "positive.toning.paper.hue": k104,
    "positive.toning.paper.strength": k105,
    "positive.curve": k106,
    "positive.curve.*": k107,
    "positive.curve.*.0": k108,
    "positive.curve.*.1": k109,
    "positive.local": k110,
    "positive.local.*": k111,
    "positive.local.*.id": k112,
    "positive.local.*.name": k113,
    "positive.local.*.line": k114,
    "positive.local.*.line.*": k115,
    "positive.local.*.line.*.0": k116,
    "positive.local.*.line.*.1": k117,
    "positive.local.*.oval": k118,
    "positive.local.*.oval.0": k119,
    "positive.local.*.oval.1": k120,
    "positive.local.*.oval.2": k121,
    "positive.local.*.oval.3": k122,
    "positive.local.*.polygon": k123,
    "positive.local.*.polygon.*": k115,
    "positive.local.*.polygon.*.0": k116,
    "positive.local.*.polygon.*.1": k117,
    "positive.local.*.turn": k124,
    "positive.local.*.feather": k125,
    "positive.local.*.exposure": k126,
    "positive.local.*.filtration": k87,
    "positive.local.*.filtration.cyan": k88,
    "positive.local.*.filtration.magenta": k89,
    "positive.local.*.filtration.yellow": k90,
    "positive.local.*.contrast": k127,
    "output": k128,
    "output.*": k129,
    "output.*.name": k130,
    "output.*.type": k131,
    "output.*.file": k132,
    "output.*.depth": k133,
    "output.*.quality": k134,
    "output.*.space": k135,
    "output.*.long": k136,
    "output.*.sharpen": k137,
    "output.*.compression": k138,
    "output.*.print": k139,
    "output.*.print.paper": k140,
    "output.*.print.paper.*": k141,
    "output.*.print.orientation": k142,
    "output.*.print.border": k143,
    "output.*.print.border.*": k144,
    "output.*.print.fit": k145,
    "output.*.print.length": k146,
    "output.*.print.place": k147,
    "output.*.print.place.*": k148,
    "output.*.print.resolution": k149,
    "output.*.print.profile": k150,
    "output.*.print.intent": k151,
    "output.*.print.blackPointCompensation": k152,
    "note": k182,
  },
};
