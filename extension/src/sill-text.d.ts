/** The bundler puts the text of a layout in. */
declare module '*.sill' {
  const text: string;
  export default text;
}
