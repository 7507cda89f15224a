/** Which commands there are in a browser without a remote. Names stand without "rollbook.". */

/** Commands that decode pictures or start git. */
export const NEEDS_DESKTOP = [
  "openPreview",
  "lockPreview",
  "unlockPreview",
  "openSheet",
  "newEmptyRoll",
  "newRollFromScans",
  "reviewChanges",
  "compareWithRevision",
  "compareFrame",
  "survey",
  "showSurvey",
  "copyStand",
  "calibrate",
  "contactSheet",
  "exportRoll",
  "lockScans",
  "measureJoins",
  "measureLens",
  "shootingNotes",
  "writeStock",
  "renewAutomaticValues",
];

/** Commands on texts, which work there too. */
export const TEXT_COMMANDS = ["newEmptyStock", "check", "setBase", "explainProblem", "refreshRolls", "showLog"];
