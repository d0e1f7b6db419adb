export class Marker {
  constructor() {}
  mark() {}
}
