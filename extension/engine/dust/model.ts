/**
 * The weights of the dust classifier, printed by `npm run bench -- dust-model`: of each term its mean, its standard
 * deviation, its weight and the weight of its square.
 */
// oxfmt-ignore
export const MODELS = {
  /** 219 scans, 67573 blobs, 6492 of them dust. */
  "colour-negative": {
    constant: -4.12,
    terms: {
      tone: [0.302, 1.952, -0.83, 0.07],
      form: [-2.58, 2.322, -1.57, -0.17],
      colour: [2.765, 1.44, -2.05, 0.15],
      colourError: [-3.498, 0.557, -0.75, -0.21],
      opacity: [0.497, 0.247, -0.32, 0.06],
      peak: [0.6, 0.185, 0.86, -0.41],
      size: [0.33, 0.914, 0.04, 0.28],
      strength: [1.613, 1.097, -1.03, -0.37],
      edge: [0.528, 0.118, 0.58, -0.11],
      solidity: [2.269, 0.51, 0.46, -0.1],
      elongation: [0.603, 0.582, -0.09, -0.33],
      surroundContrast: [0.206, 0.224, 0.49, -0.28],
      noise: [-2.439, 1.053, 1.05, 0.1],
      around: [-2.208, 0.579, -0.16, 0.07],
      bottom: [0.642, 0.605, -0.36, 0.01],
      middleError: [-2.554, 1.079, -1.48, 0.09],
      line: [0.102, 0.303, -0.12, -0.31],
      lineLength: [0.225, 0.682, 0.96, 0.05],
    },
  },
  /** 72 scans, 26242 blobs, 2109 of them dust. */
  "black-and-white-negative": {
    constant: -2.27,
    terms: {
      tone: [1.895, 1.737, 0.1, 0.2],
      form: [-1.104, 2.534, -1.84, -0.12],
      colour: [0.393, 0.476, 0.6, -0.12],
      colourError: [-3.496, 0.561, 0.26, 0.01],
      opacity: [0.541, 0.259, -0.24, 0.01],
      peak: [0.652, 0.192, 0.51, -0.5],
      size: [0.37, 0.915, -0.59, 0.28],
      strength: [1.76, 1.135, 0.04, -0.46],
      edge: [0.529, 0.122, 0.62, -0.28],
      solidity: [2.283, 0.5, 0.95, 0.03],
      elongation: [0.573, 0.543, 0.1, -0.32],
      surroundContrast: [0.214, 0.228, 0.06, -0.2],
      noise: [-2.223, 0.937, 0.31, 0.05],
      around: [-1.416, 0.673, 0.4, -0.04],
      bottom: [0.795, 0.714, -0.56, 0.02],
      middleError: [-2.586, 1.056, -0.83, -0.3],
      line: [0.089, 0.284, -0.07, -0.21],
      lineLength: [0.19, 0.624, 1.23, 0.1],
    },
  },
  /** 68 scans, 18662 blobs, 1708 of them dust. */
  "slide": {
    constant: -1.25,
    terms: {
      tone: [-0.204, 1.61, -0.17, -0.03],
      form: [-3.968, 2.237, -1.24, -0.2],
      colour: [1.256, 1.292, -1.06, -0.12],
      colourError: [-2.721, 0.989, 0.02, 0.15],
      opacity: [0.577, 0.344, 0.65, -0.14],
      peak: [0.755, 0.233, -0.54, -0.71],
      size: [0.591, 1.149, -0.03, 0.01],
      strength: [1.949, 1.361, -0.07, -0.25],
      edge: [0.49, 0.181, 0.63, -0.15],
      solidity: [2.087, 0.566, 0.84, 0.1],
      elongation: [0.717, 0.575, -0.1, -0.27],
      surroundContrast: [0.281, 0.282, -0.43, 0.06],
      noise: [-1.239, 1.405, -0.95, -0.51],
      around: [-3.05, 1.867, -0.25, -0.36],
      bottom: [1.64, 1.615, -0.23, 0.08],
      middleError: [-2.302, 1.296, -0.28, -0.45],
      line: [0.109, 0.311, -0.07, -0.18],
      lineLength: [0.235, 0.697, 0.65, 0.13],
    },
  },
} as const;
