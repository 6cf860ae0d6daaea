using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>Says of every stretch of track which rail carries A, once it is known where polarity may change.</summary>
internal sealed class PhaseColouring
{
    private readonly RunMap _map;
    private readonly CellMap _cells;
    private readonly SignUnionWorkspace _parity;
    private readonly List<string> _wrongFeeders = [];

    internal PhaseColouring(RunMap map, BuiltWiring built, IReadOnlyCollection<(Candidate Candidate, double RequiredMetres)> chosen)
    {
        _map = map;
        Spot[] cuts = [.. chosen.SelectMany(one => one.Candidate.Borders).Select(border => border.Spot).Concat(built.Borders)];
        _cells = new(map, cuts.Select(spot => (spot.Run, spot.Position)));
        _parity = new(_cells.Count + 1);
        JoinTrack();
        JoinTies(chosen);
        JoinFeeders(built, [.. chosen.Select(one => one.Candidate)]);
    }

    /// <summary>Existing ordinary feeders that are the wrong way round, by name.</summary>
    internal ImmutableArray<string> WrongFeeders => [.. _wrongFeeders.Order(StringComparer.Ordinal)];

    /// <summary>The stretches of all plain track, by section and distance.</summary>
    internal ImmutableArray<PhaseStretch> Stretches()
    {
        var parts = _map.Runs.SelectMany(Parts).OrderBy(part => part.Stretch.Section).ThenBy(part => part.Stretch.FromMetres);
        List<PhaseStretch> stretches = [];
        foreach ((TrackStretch stretch, int cell, bool forward) in parts)
        {
            // Track that no feeder speaks for takes the direction of its first section: A on the left.
            _ = _parity.Join(cell, _cells.Count, !forward);
            stretches.Add(new(stretch, forward ? LeftIsB(cell) : !LeftIsB(cell)));
        }

        return [.. stretches];
    }

    /// <summary>
    /// Whether a candidate wants another polarity at one border than at another. Meaningful once <see cref="Stretches"/> has settled
    /// track that no feeder speaks for.
    /// </summary>
    internal bool Swaps(Candidate candidate, BorderPair pair)
    {
        (Border first, Border second) = (candidate.Borders[pair.First], candidate.Borders[pair.Second]);
        return LeftIsB(Outside(first)) ^ LeftIsB(Outside(second)) ^ first.InsideLeft ^ second.InsideLeft;
    }

    /// <summary>
    /// Whether the left rail of a cell's frame carries B; a junction is the cell of its own number. Meaningful once
    /// <see cref="Stretches"/> has settled track that no feeder speaks for.
    /// </summary>
    internal bool LeftIsB(int cell) => _parity.Find(cell).Differs ^ _parity.Find(_cells.Count).Differs;

    private void JoinTrack()
    {
        foreach ((int cell, int junction, bool differ) in _map.Runs.SelectMany(run => _cells.Meetings(run.Index)))
        {
            _ = _parity.Join(cell, junction, differ);
        }
    }

    private void JoinTies(IEnumerable<(Candidate Candidate, double RequiredMetres)> chosen)
    {
        foreach ((Candidate candidate, double requiredMetres) in chosen)
        {
            foreach (BorderPair pair in candidate.Pairs.Where(pair => pair.IsTied(requiredMetres)))
            {
                (Border first, Border second) = (candidate.Borders[pair.First], candidate.Borders[pair.Second]);
                _ = _parity.Join(Outside(first), Outside(second), first.InsideLeft ^ second.InsideLeft);
            }
        }
    }

    private int Outside(Border border) => _cells.CellBeside(border.Spot.Run, border.Spot.Position, before: !border.InsideBefore);

    /// <summary>The last member stands for A: a cell that is like it carries A on the left.</summary>
    private void JoinFeeders(BuiltWiring built, IReadOnlyCollection<Candidate> chosen)
    {
        foreach ((Feeder feeder, RunPlace at) in built.Feeders)
        {
            bool inside = chosen.Any(candidate => candidate.Stretches.Any(at.Spot.Overlaps));
            int cell = _cells.CellBeside(at.Run, at.Position, before: true);
            if (!inside && !_parity.Join(cell, _cells.Count, !RunMap.LeftCarriesA(feeder, at)))
            {
                _wrongFeeders.Add(feeder.Name);
            }
        }
    }

    private IEnumerable<(TrackStretch Stretch, int Cell, bool Forward)> Parts(Run run)
    {
        ImmutableArray<double> cuts = _cells.CutsOf(run.Index);
        foreach (RunPiece piece in run.Pieces.Where(piece => piece.TakesFeeders))
        {
            (double low, double high) = (piece.Start + CellMap.SamePlaceMetres, piece.End - CellMap.SamePlaceMetres);
            double[] marks = [piece.Start, .. cuts.Where(cut => cut > low && cut < high), piece.End];
            for (int i = 1; i < marks.Length; i++)
            {
                (double one, double other) = (piece.MetresFromA(marks[i - 1]), piece.MetresFromA(marks[i]));
                int cell = _cells.CellBeside(run.Index, (marks[i - 1] + marks[i]) / 2, before: true);
                yield return (new(piece.Piece, Math.Min(one, other), Math.Max(one, other)), cell, piece.Forward);
            }
        }
    }
}
