using WireUp.Layouts;

namespace WireUp.Documents.Tests;

/// <summary>Small invented railways for the tests of drawings and papers.</summary>
internal static class TestLayouts
{
    /// <summary>A spur and a balloon loop: two districts, the loop reversing, four gaps, three feeders.</summary>
    public static Layout Balloon { get; } = Read("""
        wireup: 1
        name: Balloon at Cold Ridge
        scale: HO
        longest-train: 1.8 m
        shortest-pickup: 60
        track:
          spur: { length: 1500, path: [[0, 1000], [1500, 1000]] }
          T1: { turnout: left, number: 6, length: 250 }
          loop: { length: 4.2 m, path: [[1745, 1040], [2050, 1350], [2500, 1520], [2950, 1350], [3100, 1000], [2950, 650], [2500, 480], [2050, 650], [1745, 960]] }
          end: { stop: true }
        joined:
          - end > spur > T1.points
          - T1.diverging > loop > T1.through
        wiring:
          supplies:
            brick: { output: 15 V dc, rating: 90 W, class: limited }
          boosters:
            main: { supply: brick, volts: 14.5 V, amps: 5 A, resistance: 0.15 ohm, at: [200, 1400] }
          districts:
            east: { booster: main, trip: 4 A, resistance: 0.05 ohm }
            turn: { booster: main, trip: 2.5 A, reversing: true }
          bus:
            east: { wire: 2.5 mm2, runs: [ main > P1 0.8 m ] }
            turn: { wire: 1.5 mm2, runs: [ main > Q1 2.6 m, Q1 > Q2 1.7 m ] }
          feeders:
            f1: { at: spur@0.7 m, bus: P1, wire: 0.5 mm2, length: 250 }
            f2: { at: loop@1.2 m, bus: Q1, wire: 0.5 mm2, length: 300 }
            f3: { at: loop@3.0 m, bus: Q2, wire: 0.5 mm2, length: 300, swap: false }
          gaps:
            - { at: T1.diverging, rails: both }
            - { at: loop@-150, rails: both }
        """);

    /// <summary>Two tracks joined by a crossover, one turnout with a contact for its isolated frog, one with a live frog; nothing wired.</summary>
    public static Layout Crossover { get; } = Read("""
        wireup: 1
        name: Crossover at Low Ferry
        scale: HO
        longest-train: 1 m
        shortest-pickup: 60
        track:
          north-1: { length: 900 }
          north-2: { length: 900 }
          south-1: { length: 900 }
          south-2: { length: 900 }
          T1: { turnout: right, number: 6, frog: isolated, frog-feed: contact }
          T2: { turnout: right, number: 6, frog: live }
        joined:
          - north-1 > T1.points
          - T1.through > north-2
          - south-1 > T2.through
          - T2.points > south-2
          - T1.diverging > T2.diverging
        """);

    /// <summary>Reads a layout that must have no problem.</summary>
    public static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test.layout.yaml");
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }

    /// <summary>A sample layout by the start of its file name.</summary>
    public static Layout Sample(string name)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText($"sample-layouts/{name}.layout.yaml"), name);
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }
}
