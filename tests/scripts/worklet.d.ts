// What an audio worklet finds around it, of which the library of types for pages knows nothing.
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare const sampleRate: number;
declare const currentTime: number;
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
