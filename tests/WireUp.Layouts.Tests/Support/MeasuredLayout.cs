namespace WireUp.Layouts.Tests.Support;

/// <summary>A small wired layout to hold a meter to, with names that belong to two things.</summary>
internal static class MeasuredLayout
{
    public const string Text = """
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          loop: { length: 2 m }
          spur: { length: 1.2 m }
          T1: { turnout: left, frog: live }
          T2: { turnout: right, frog: insulated }
          W: { turnout: three-way, frog: live }
        joined: [ loop.b > T1.points, T1.through > spur ]
        wiring:
          boosters: { main: { amps: 5 A }, other: { amps: 3 A } }
          districts: { east: { booster: main, trip: 3 A }, other: { booster: other, trip: 2 A } }
          bus: { east: { wire: 12 AWG, runs: [ main > P1 2 m, P1 > f2 1 m ] } }
          feeders:
            f1: { at: loop@1 m, bus: P1, wire: 20 AWG, length: 200 }
            f2: { at: spur@0.5 m, bus: f2, wire: 20 AWG, length: 200 }
          switches: { S1: [on, off] }
        stock: { locomotives: { switcher: { running: 0.25 A } } }
        """;

    public static Layout Layout { get; } = LayoutFile.Read(Text, "test").Layout!;
}
