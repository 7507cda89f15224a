/** Tag numbers that scans and pictures carry: TIFF 6.0, TIFF/EP, EXIF 2.32, DNG 1.7. */
export const TAG = {
  subfileType: 254,
  oldSubfileType: 255,
  width: 256,
  height: 257,
  bitsPerSample: 258,
  compression: 259,
  photometric: 262,
  description: 270,
  make: 271,
  model: 272,
  stripOffsets: 273,
  orientation: 274,
  samplesPerPixel: 277,
  rowsPerStrip: 278,
  stripLengths: 279,
  rawDataOffset: 0x118,
  planarConfiguration: 284,
  software: 305,
  dateTime: 306,
  artist: 315,
  copyright: 33432,
  tileWidth: 322,
  tileHeight: 323,
  tileOffsets: 324,
  tileLengths: 325,
  subDirectories: 330,
  sampleFormat: 339,
  jpegOffset: 0x201,
  jpegLength: 0x202,
  xmp: 700,
  exposureTime: 33434,
  fNumber: 33437,
  iccProfile: 34675,
  exifDirectory: 34665,
  gpsDirectory: 34853,
  iso: 34855,
  exifVersion: 36864,
  dateTimeOriginal: 36867,
  offsetTimeOriginal: 36881,
  shutterSpeed: 37377,
  focalLength: 37386,
  userComment: 37510,
  flashpixVersion: 40960,
  colourSpace: 40961,
  lensModel: 42036,
  dngVersion: 50706,
  uniqueCameraModel: 50708,
  cfaLayout: 50711,
  linearizationTable: 50712,
  blackLevel: 50714,
  whiteLevel: 50717,
  colourMatrix1: 50721,
  colourMatrix2: 50722,
  calibrationLight1: 50778,
  calibrationLight2: 50779,
} as const;

/** Values of `TAG.photometric`. */
export const PHOTOMETRIC = {
  whiteIsZero: 0,
  blackIsZero: 1,
  rgb: 2,
  separated: 5,
  filterArray: 32803,
  linearRaw: 34892,
} as const;

const LOSSY_JPEG = 34892;
const DEFLATE: readonly number[] = [8, 32946];
/** Lossless in DNG, baseline in TIFF; and baseline in DNG. */
const JPEG: readonly number[] = [7, LOSSY_JPEG];

/** Values of `TAG.compression`: TIFF 6.0, DNG 1.7. */
export const COMPRESSION = {
  none: 1,
  jpeg: JPEG,
  lossyJpeg: LOSSY_JPEG,
  deflate: DEFLATE,
  wavelet: 9,
  jpegXl: 52546,
} as const;
