import { Component, h, type ComponentType, type VNode } from "preact";

/** A component that is drawn again only when one of its properties is another. */
export function memo<P extends object>(Drawn: ComponentType<P>): ComponentType<P> {
  return class Remembered extends Component<P> {
    override shouldComponentUpdate(next: P): boolean {
      const now = this.props as Record<string, unknown>;
      const then = next as Record<string, unknown>;
      return Object.keys(then).some((name) => now[name] !== then[name]);
    }

    override render(props: P): VNode {
      return h(Drawn as ComponentType<object>, props);
    }
  };
}
