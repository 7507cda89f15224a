/**
 * What contact sheets use of the PDF library. The build makes a program of its own of it, dist/pdf-library.mjs, that is
 * loaded with the first sheet: in the workers' program it would double the time that each of them takes to start.
 */
export { PDFDocument, PDFName, StandardFonts, rgb } from "@cantoo/pdf-lib";
