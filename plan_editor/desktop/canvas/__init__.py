"""The ground on the screen: pan, zoom, pointer in."""
