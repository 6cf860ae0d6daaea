using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>What a train meets that leaves a candidate by one border.</summary>
/// <param name="Arrivals">Border by which it comes back in, with the distance driven outside; only those within the limit.</param>
/// <param name="Halo">Track passed within the buffer length.</param>
/// <param name="Junctions">Turnouts passed within the buffer length.</param>
internal sealed record OutwardDrives(
    ImmutableDictionary<int, double> Arrivals, ImmutableArray<RunStretch> Halo, ImmutableArray<int> Junctions)
{
    /// <summary>Dijkstra over turnouts entered by one end, starting outward at a border.</summary>
    internal static OutwardDrives From(RunMap map, ImmutableArray<Border> borders, int start, Clearances clearances)
    {
        Search search = new(map, borders, clearances);
        search.Run(borders[start].Spot, borders[start].Outward);
        return new(search.Arrivals.ToImmutable(), [.. search.Halo], [.. search.Junctions]);
    }

    private sealed class Search(RunMap map, ImmutableArray<Border> borders, Clearances clearances)
    {
        private readonly PriorityQueue<Port, double> _open = new();
        private readonly HashSet<Port> _done = [];

        internal ImmutableDictionary<int, double>.Builder Arrivals { get; } = ImmutableDictionary.CreateBuilder<int, double>();

        internal List<RunStretch> Halo { get; } = [];

        internal SortedSet<int> Junctions { get; } = [];

        internal void Run(Spot spot, Tip heading)
        {
            Along(heading, spot.Position, 0);
            while (_open.TryDequeue(out Port port, out double metres))
            {
                if (!_done.Add(port))
                {
                    continue;
                }

                Junction junction = map.Junctions[port.Junction];
                if (metres < clearances.Buffer)
                {
                    _ = Junctions.Add(port.Junction);
                }

                foreach (int way in junction.WaysFrom(port.Index))
                {
                    Tip tip = junction.Tips[way];
                    Along(tip.Opposite, tip.Side == 0 ? 0 : map.Runs[tip.Run].Length, metres + junction.LengthMetres);
                }
            }
        }

        /// <summary>Drives along a run from a position towards a tip, until a border, the tip or the limit.</summary>
        private void Along(Tip heading, double position, double metres)
        {
            bool up = heading.Side == 1;
            double tipPosition = up ? map.Runs[heading.Run].Length : 0;
            int? border = NextBorder(heading, position);
            double stop = border is { } met ? borders[met].Spot.Position : tipPosition;
            double halo = Math.Min(Math.Abs(stop - position), clearances.Buffer - metres);
            if (halo > 0)
            {
                Halo.Add(up ? new(heading.Run, position, position + halo) : new(heading.Run, position - halo, position));
            }

            double end = metres + Math.Abs(stop - position);
            if (end >= Math.Max(clearances.Required, clearances.Buffer))
            {
                return;
            }

            if (border is { } reached)
            {
                Arrivals[reached] = Math.Min(end, Arrivals.GetValueOrDefault(reached, double.PositiveInfinity));
            }
            else if (map.PortAt(heading) is { } port)
            {
                _open.Enqueue(port, end);
            }
        }

        private int? NextBorder(Tip heading, double position)
        {
            bool up = heading.Side == 1;
            int? next = null;
            for (int i = 0; i < borders.Length; i++)
            {
                Border border = borders[i];
                double ahead = up ? border.Spot.Position - position : position - border.Spot.Position;
                if (border.Spot.Run == heading.Run && border.InsideBefore != up && ahead >= -CellMap.SamePlaceMetres
                    && (next is null || ahead < Math.Abs(borders[next.Value].Spot.Position - position)))
                {
                    next = i;
                }
            }

            return next;
        }
    }
}
