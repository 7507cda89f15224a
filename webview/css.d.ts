/** Style sheets that a panel imports. */
declare module "*.css";
