// Style sheets are bundled beside the scripts; a script takes nothing from them.
declare module "*.css";
