using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The middle of a candidate: turnouts with the runs that lie wholly inside. What leaves it are its exits, each a tip at one of
/// its turnouts; where on those runs the candidate ends is decided afterwards.
/// </summary>
/// <param name="Junctions">Turnouts, ascending.</param>
/// <param name="Runs">Runs wholly inside, ascending.</param>
/// <param name="Exits">Tips by which track leaves, by run and side.</param>
/// <param name="ExitsLeft">For each exit, whether the run's left rail is the core's own left rail.</param>
/// <param name="Roads">Dead-end roads inside.</param>
internal sealed record Core(
    ImmutableArray<int> Junctions, ImmutableArray<int> Runs, ImmutableArray<Tip> Exits, ImmutableArray<bool> ExitsLeft, int Roads);

/// <summary>A drive within a core.</summary>
/// <param name="Metres">Its length; infinite when there is none.</param>
/// <param name="MainWay">Whether it takes no diverging leg.</param>
internal readonly record struct Drive(double Metres, bool MainWay)
{
    /// <summary>No drive.</summary>
    public static Drive None { get; } = new(double.PositiveInfinity, MainWay: false);
}

/// <summary>Shortest drives within a core, without reversing, through a turnout only between points and leg.</summary>
/// <param name="Between">Between two exits, by index.</param>
/// <param name="ToEndOfTrack">From an exit to the farthest end of track inside; 0 when there is none.</param>
internal sealed record CoreDrives(ImmutableArray<ImmutableArray<Drive>> Between, ImmutableArray<double> ToEndOfTrack)
{
    internal static CoreDrives Of(RunMap map, Core core)
    {
        var from = core.Exits.Select(exit => From(map, core, exit)).ToImmutableArray();
        return new([.. from.Select(one => one.ToExits)], [.. from.Select(one => one.EndOfTrack)]);
    }

    /// <summary>Dijkstra over turnouts entered by one end, starting inward at an exit.</summary>
    private static (ImmutableArray<Drive> ToExits, double EndOfTrack) From(RunMap map, Core core, Tip start)
    {
        Dictionary<Tip, Drive> exits = [];
        HashSet<Port> done = [];
        double endOfTrack = 0;
        PriorityQueue<(Port At, bool MainWay), double> open = new();
        open.Enqueue((map.PortAt(start)!.Value, true), 0);
        while (open.TryDequeue(out (Port At, bool MainWay) here, out double metres))
        {
            if (!done.Add(here.At))
            {
                continue;
            }

            Junction junction = map.Junctions[here.At.Junction];
            foreach (int port in junction.WaysFrom(here.At.Index))
            {
                Tip tip = junction.Tips[port];
                double along = metres + junction.LengthMetres;
                bool mainWay = here.MainWay && junction.IsMainWay(here.At.Index, port);
                if (core.Exits.Contains(tip))
                {
                    _ = exits.TryAdd(tip, new(along, mainWay));
                }
                else if (map.PortAt(tip.Opposite) is { } next)
                {
                    open.Enqueue((next, mainWay), along + map.Runs[tip.Run].Length);
                }
                else
                {
                    endOfTrack = Math.Max(endOfTrack, along + map.Runs[tip.Run].Length);
                }
            }
        }

        return ([.. core.Exits.Select(exit => exits.GetValueOrDefault(exit, Drive.None))], endOfTrack);
    }
}
