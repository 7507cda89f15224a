// What no package's own files tell: the libraries inside LibRaw's WebAssembly build, and licence texts left out of
// packages. Sources: the package's build script (compileLibraw.sh in github.com/ybouane/LibRaw-Wasm), the files COPYRIGHT
// of LibRaw and LICENSE of Little CMS in their repositories, LICENSE of Emscripten,
// and COPYRIGHT of musl as Emscripten carries it.

const mit = (holder) => `${holder}

Permission is hereby granted, free of charge, to any person obtaining a copy
of this software and associated documentation files (the "Software"), to deal
in the Software without restriction, including without limitation the rights
to use, copy, modify, merge, publish, distribute, sublicense, and/or sell
copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in
all copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR
IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY,
FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE
AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER
LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM,
OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE
SOFTWARE.
`;

const isc = (holder) => `${holder}

Permission to use, copy, modify, and/or distribute this software for any
purpose with or without fee is hereby granted, provided that the above
copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES
WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF
MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY
SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER
RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT,
NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE
USE OR PERFORMANCE OF THIS SOFTWARE.
`;

/** Licence texts of packages that name their licence but do not carry its text. */
export const missingTexts = [
  { packages: /^libraw-wasm$/, text: isc("Copyright (c) ybouane and the contributors to LibRaw-Wasm") },
  { packages: /^@microsoft\/fast-/, text: mit("Copyright (c) Microsoft Corporation. All rights reserved.") },
];

/** Sections of the notices for what is linked into a binary. */
export const innerParts = [
  {
    title: "Libraries inside libraw-wasm",
    text: [
      "`libraw.js` and `libraw.wasm` lie beside the bundles as files of their own and can be replaced by another build.",
      "",
      "| library | version | licence | source |",
      "| --- | --- | --- | --- |",
      "| LibRaw | 0.22.1 | LGPL-2.1 or CDDL-1.0, at your choice | https://github.com/LibRaw/LibRaw |",
      "| Little CMS | 2.19.1 | MIT | https://github.com/mm2/Little-CMS |",
      "| libjpeg | as in the Emscripten port | IJG | https://www.ijg.org |",
      "| Emscripten's run time with musl and LLVM's C++ library | as built | MIT or NCSA; MIT; Apache-2.0 with LLVM exception | https://github.com/emscripten-core/emscripten |",
      "",
      "LibRaw is copyright (C) from 2008 on LibRaw LLC (www.libraw.org) and contains code that is copyright (C) from 1997 on",
      "Dave Coffin. Its texts: licences/LGPL-2.1.txt and licences/CDDL-1.0.txt.",
      "",
      "This software is based in part on the work of the Independent JPEG Group; the text: licences/IJG.txt.",
      "",
      "Little CMS:",
      "",
      "```text",
      ...mit("Copyright (c) 1998-2023 Marti Maria Saguer").trim().split("\n"),
      "```",
      "",
      "Emscripten:",
      "",
      "```text",
      ...mit("Copyright (c) 2010-2014 Emscripten authors, see its AUTHORS file.").trim().split("\n"),
      "```",
      "",
      "musl:",
      "",
      "```text",
      ...mit("Copyright (c) from 2005 on Rich Felker and others; see musl's COPYRIGHT file.").trim().split("\n"),
      "```",
    ],
  },
  {
    title: "Inside lcms-wasm",
    text: [
      "`lcms.js` and `lcms.wasm` lie beside the bundles as files of their own. They are built from Little CMS 2.16, MIT,",
      "https://github.com/mm2/Little-CMS, with Emscripten's run time and musl; the texts of all three stand above.",
    ],
  },
  {
    title: "Inside zxing-wasm",
    text: [
      "`zxing_reader.wasm` lies beside the bundles as a file of its own. It is built from zxing-cpp, Apache-2.0",
      "(licences/Apache-2.0.txt), https://github.com/zxing-cpp/zxing-cpp.",
    ],
  },
  {
    title: "Table of edge codes",
    text: [
      "`edge-codes/film-names.csv` is a data file of its own folder, apart from the program and under its own licence: derived from",
      "The Big Film Database (dxdatabase), © 2018 Dxdatabase, https://github.com/dxdatabase/Open-source-film-database, commit",
      "000d2095, Creative Commons Attribution-ShareAlike 4.0 International, https://creativecommons.org/licenses/by-sa/4.0/legalcode.",
      "`edge-codes/README.md` beside it states what was changed.",
    ],
  },
  {
    title: "Measured data in the bundles",
    text: [
      "The unmix matrices by camera model (`extension/engine/calibrate/camera-unmix/table.ts`) are worked out from published spectra.",
      "What works out others from a camera's colour matrix is learnt from the same and from those cameras' colour matrices as",
      "LibRaw (above) has them. The prior of the automatic start (`extension/engine/auto/table.ts`) is worked out from the same",
      "spectra. The film library (`extension/engine/film/library/`) holds published curves and spectra themselves,",
      "resampled and rounded.",
      "",
      "| data | source | licence |",
      "| --- | --- | --- |",
      "| sensitivities of 52 cameras, 190 reflectances | https://github.com/AcademySoftwareFoundation/rawtoaces-data, v1.1.0 and commit e9b8503c | Apache-2.0 |",
      "| curves, base, dyes and sensitivities of 30 films, digitised from the makers' data sheets | https://github.com/JanLohse/spectral_film_lut, commit 02ecafd7 | MIT |",
      "| CIE illuminants and observer, lamps of the NIST CQS spreadsheet | https://github.com/colour-science/colour, v0.4.6 | BSD-3-Clause |",
      "| colours of the 24-patch chart | reflectances of ISO 17321-1, as carried by the same | BSD-3-Clause |",
      "",
      "spectral_film_lut:",
      "",
      "```text",
      ...mit("Copyright (c) 2026 Jan Lohse").trim().split("\n"),
      "```",
    ],
  },
];
