using WireUp.Layouts;

namespace WireUp.Faults.Tests;

/// <summary>A spur of three sections behind one feeder, every joint a joiner.</summary>
internal static class SmallLayout
{
    public const string Text = """
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          spur-1: { length: 1 m }
          spur-2: { length: 1 m }
          spur-3: { length: 1 m }
          T1: { turnout: left, frog: live, frog-feed: contact }
          end: { length: 1 m }
        joined: [ spur-1 > spur-2 > spur-3, T1.points > spur-1, T1.through > end ]
        wiring:
          boosters: { main: { amps: 5 A, volts: 14.5 V } }
          districts: { east: { booster: main, trip: 3 A } }
          bus: { east: { wire: 12 AWG, runs: [ main > P1 2 m ] } }
          feeders: { f1: { at: spur-1@0.2 m, bus: P1, wire: 20 AWG, length: 200 } }
        """;

    public static Layout Layout { get; } = LayoutFile.Read(Text, "test").Layout!;
}
