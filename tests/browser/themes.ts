/** A dark, a light and a high-contrast set of the theme variables that the panel uses, near to what the editor ships. */
type Theme = Readonly<Record<string, string>>;

const dark: Theme = {
  foreground: "#cccccc",
  descriptionForeground: "#9d9d9d",
  errorForeground: "#f85149",
  focusBorder: "#0078d4",
  "editor-background": "#1f1f1f",
  "editor-foreground": "#cccccc",
  "panel-border": "#2b2b2b",
  "button-background": "#0078d4",
  "button-foreground": "#ffffff",
  "button-hoverBackground": "#026ec1",
  "button-secondaryBackground": "#313131",
  "button-secondaryForeground": "#cccccc",
  "button-secondaryHoverBackground": "#3c3c3c",
  "input-background": "#313131",
  "input-foreground": "#cccccc",
  "input-border": "#3c3c3c",
  "dropdown-background": "#313131",
  "dropdown-foreground": "#cccccc",
  "dropdown-border": "#3c3c3c",
  "toolbar-hoverBackground": "#5a5d5e50",
  "inputOption-activeBackground": "#2489db82",
  "inputOption-activeForeground": "#ffffff",
  "inputOption-activeBorder": "#2488db",
  "textLink-foreground": "#4daafc",
  "list-hoverBackground": "#2a2d2e",
  "list-activeSelectionBackground": "#04395e",
  "list-activeSelectionForeground": "#ffffff",
  "sideBarSectionHeader-foreground": "#cccccc",
  "sideBarSectionHeader-border": "#2b2b2b",
  "editorError-foreground": "#f14c4c",
  "editorWarning-foreground": "#cca700",
  "editorInfo-foreground": "#3794ff",
  "charts-red": "#f14c4c",
  "charts-green": "#89d185",
  "charts-blue": "#3794ff",
};

const light: Theme = {
  ...dark,
  foreground: "#3b3b3b",
  descriptionForeground: "#616161",
  focusBorder: "#005fb8",
  "editor-background": "#ffffff",
  "editor-foreground": "#3b3b3b",
  "panel-border": "#e5e5e5",
  "button-background": "#005fb8",
  "button-secondaryBackground": "#e5e5e5",
  "button-secondaryForeground": "#3b3b3b",
  "button-secondaryHoverBackground": "#cccccc",
  "input-background": "#ffffff",
  "input-foreground": "#3b3b3b",
  "input-border": "#cecece",
  "dropdown-background": "#ffffff",
  "dropdown-foreground": "#3b3b3b",
  "dropdown-border": "#cecece",
  "toolbar-hoverBackground": "#b8b8b850",
  "inputOption-activeBackground": "#bed6ed",
  "inputOption-activeForeground": "#000000",
  "inputOption-activeBorder": "#005fb8",
  "textLink-foreground": "#005fb8",
  "list-hoverBackground": "#f2f2f2",
  "list-activeSelectionBackground": "#e8e8e8",
  "list-activeSelectionForeground": "#000000",
  "sideBarSectionHeader-foreground": "#3b3b3b",
  "sideBarSectionHeader-border": "#e5e5e5",
  "charts-red": "#e51400",
  "charts-green": "#388a34",
  "charts-blue": "#1a85ff",
};

const contrast: Theme = {
  ...dark,
  foreground: "#ffffff",
  descriptionForeground: "#ffffff",
  focusBorder: "#f38518",
  contrastBorder: "#6fc3df",
  contrastActiveBorder: "#f38518",
  "editor-background": "#000000",
  "panel-border": "#6fc3df",
  "button-background": "#000000",
  "button-secondaryBackground": "#000000",
  "button-border": "#6fc3df",
  "input-background": "#000000",
  "input-border": "#6fc3df",
  "dropdown-background": "#000000",
  "dropdown-border": "#6fc3df",
  "toolbar-hoverBackground": "#000000",
  "inputOption-activeBackground": "#000000",
  "inputOption-activeBorder": "#f38518",
  "list-activeSelectionBackground": "#000000",
};

export const THEMES = { dark, light, contrast } as const;
export type ThemeName = keyof typeof THEMES;

/** The page's head and body for a theme, as the editor makes them. */
export function themedPage(name: ThemeName, policy: string): string {
  const kind = name === "light" ? "vscode-light" : name === "dark" ? "vscode-dark" : "vscode-high-contrast";
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Panel</title><link rel="stylesheet" href="/theme.css"><link rel="stylesheet" href="/page.css"></head>
<body class="${kind}"><div id="panel"></div><script type="module" src="/page.js"></script></body></html>`;
}

export const themeStyle = (name: ThemeName): string =>
  `:root { ${Object.entries(THEMES[name])
    .map(([key, value]) => `--vscode-${key}: ${value};`)
    .join(" ")}
--vscode-font-family: system-ui, "Segoe UI", "Ubuntu", "Droid Sans", sans-serif; --vscode-font-size: 13px; --vscode-font-weight: normal; }`;
