namespace WireUp.Commands;

/// <summary>The layout that <c>wireup new</c> writes.</summary>
internal static class StarterLayout
{
    /// <summary>The file's text.</summary>
    public static string Text(string name, string scale) => $$"""
        # An oval with a passing siding and a spur. Change the pieces and lengths into those of your own track plan,
        # then: wireup check, wireup plan.
        wireup: 1                     # version of this file format
        name: {{Quoted(name)}}
        scale: {{scale}}                     # sets track volts and usual currents
        control: command              # command (digital, two-rail), direct (DC), three-rail (AC)
        units: mm                     # of bare numbers; '1.2 m' or '4 ft' may be written anywhere
        longest-train: 1.2 m          # first to last metal wheel
        shortest-pickup: 40           # pick-up wheel base of your smallest engine

        defaults:
          rail: { code: 83, alloy: nickel-silver }
          joint: joiner               # or soldered
          frog: insulated             # insulated, isolated or live; a meter tells

        track:                        # every piece by name
          T1:      { turnout: left }  # west end of the passing siding
          T2:      { turnout: right } # east end of the passing siding
          T3:      { turnout: right } # to the spur
          station: { length: 1500 }   # main track between T1 and T2
          siding:  { length: 1500 }   # passing siding
          east:    { length: 900 }
          back:    { length: 4200 }   # round the back of the room
          spur:    { length: 700 }
          buffer:  { stop: true }     # end of the spur

        joined:                       # chains: a section is passed from its end a to its end b
          - T1.through > station > T2.through
          - T1.diverging > siding > T2.diverging
          - T2.points > east > T3.points
          - T3.through > back > T1.points
          - T3.diverging > spur > buffer

        stock:                        # what runs; measured currents are better than these
          locomotives:
            freight: { running: 0.5 A, stopped: 0.1 A, count: 2 }

        """;

    /// <summary>The text of a file without track, for drawing the first of it.</summary>
    public static string Blank(string name, string scale) => $$"""
        wireup: 1                     # version of this file format
        name: {{Quoted(name)}}
        scale: {{scale}}                     # sets track volts and usual currents
        longest-train: 1.2 m          # first to last metal wheel

        defaults:
          frog: insulated             # insulated, isolated or live; a meter tells

        track:

        """;

    /// <summary>A name as a YAML scalar that cannot end early.</summary>
    private static string Quoted(string name) => $"'{name.Replace("'", "''", StringComparison.Ordinal)}'";
}
