namespace WireUp.Circuits.Sessions;

/// <summary>
/// How far it still is to a stretch from the end of any other, driving without a change of direction: shortest ways by Dijkstra's
/// method, from the goal backwards. All sessions share the tables that have been made.
/// </summary>
internal sealed class RouteTable(SessionTrack track)
{
    /// <summary>Most numbers in all tables together (160 MB); of larger track the tables of some goals are made anew each time.</summary>
    private const int MostKept = 20_000_000;

    private readonly double[]?[] _kept = new double[track.Stretches.Length][];
    private readonly int _mostTables = MostKept / Math.Max(1, track.Stretches.Length);
    private int _tables;

    /// <summary>For every stretch the metres from its end to the start of the goal; infinite where no way leads there.</summary>
    internal double[] To(int goal)
    {
        if (Volatile.Read(ref _kept[goal]) is { } known)
        {
            return known;
        }

        double[] found = Find(goal);
        if (Interlocked.Increment(ref _tables) <= _mostTables)
        {
            Volatile.Write(ref _kept[goal], found);
        }

        return found;
    }

    private double[] Find(int goal)
    {
        double[] metres = new double[track.Stretches.Length];
        Array.Fill(metres, double.PositiveInfinity);
        PriorityQueue<int, (double, int)> open = new();
        foreach (int back in track.Stretches[goal ^ 1].Next)
        {
            metres[back ^ 1] = 0;
            open.Enqueue(back ^ 1, (0, back ^ 1));
        }

        while (open.TryDequeue(out int stretch, out (double Metres, int) key))
        {
            if (key.Metres > metres[stretch])
            {
                continue;
            }

            double through = key.Metres + track.Stretches[stretch].Metres;
            foreach (int back in track.Stretches[stretch ^ 1].Next)
            {
                if (through < metres[back ^ 1])
                {
                    metres[back ^ 1] = through;
                    open.Enqueue(back ^ 1, (through, back ^ 1));
                }
            }
        }

        return metres;
    }
}
