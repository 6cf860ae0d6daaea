using System.Collections.Immutable;
using Google.OrTools.Sat;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The exact choice as a constraint programme. For every candidate one variable: is it a section. For every part of the track
/// that no candidate cuts one variable: does the left rail of its frame carry A. Two parts that meet must agree unless a chosen
/// candidate ends between them; chosen candidates do not touch; borders that a train can bridge together want the same polarity.
/// </summary>
internal sealed class ChoiceModelBuilder
{
    private readonly CpModel _model = new();
    private readonly RunMap _map;
    private readonly ImmutableArray<Candidate> _candidates;
    private readonly BuiltWiring _built;
    private readonly double _requiredMetres;
    private readonly BoolVar[] _chosen;
    private readonly CellMap _cells;
    private readonly SignUnionWorkspace _parity;
    private readonly Dictionary<int, BoolVar> _lefts = [];
    private readonly List<BoolVar> _wrongFeeders = [];
    private readonly List<(BoolVar Swaps, int Points)> _swaps = [];

    internal ChoiceModelBuilder(RunMap map, BuiltWiring built, ImmutableArray<Candidate> candidates, double requiredMetres)
    {
        (_map, _built, _candidates, _requiredMetres) = (map, built, candidates, requiredMetres);
        _chosen = [.. candidates.Select((_, i) => _model.NewBoolVar($"c{i}"))];
        _cells = new(map, candidates.SelectMany(candidate => candidate.Borders)
            .Select(border => (border.Spot.Run, border.Spot.Position))
            .Concat(built.Borders.Select(border => (border.Run, border.Position))));
        _parity = new(_cells.Count);
    }

    /// <summary>The model, or null when some walk that no candidate cuts comes back with the rails exchanged.</summary>
    /// <param name="leaveOut">Runs of conflicts that are settled elsewhere.</param>
    /// <param name="oddBlocks">The blocks to be settled.</param>
    internal ChoiceModel? Build(IReadOnlySet<int> leaveOut, IEnumerable<Block> oddBlocks)
    {
        Run[] runs = [.. _map.Runs.Where(run => !leaveOut.Contains(run.Index))];
        var meetings = runs.SelectMany(run => _cells.Meetings(run.Index));
        if (!meetings.All(meeting => _parity.Join(meeting.Cell, meeting.Junction, meeting.Differ)))
        {
            return null;
        }

        AddParity(runs);
        AddApart();
        AddTies();
        AddFeeders();
        AddOddCycles(oddBlocks);
        return new(_model, _chosen, _candidates, Objectives());
    }

    private BoolVar LeftOf(int root)
    {
        if (!_lefts.TryGetValue(root, out BoolVar? left))
        {
            _lefts[root] = left = _model.NewBoolVar($"x{root}");
        }

        return left;
    }

    /// <summary>Across every place where a candidate may end: alike, unless a chosen one does.</summary>
    private void AddParity(IEnumerable<Run> runs)
    {
        ILookup<(int Run, int Cut), int> ending = _candidates
            .SelectMany(candidate => candidate.Borders.Select(border => (border.Spot, candidate.Index)))
            .ToLookup(pair => (pair.Spot.Run, _cells.CutAt(pair.Spot.Run, pair.Spot.Position)), pair => pair.Index);
        HashSet<(int, int)> parted = [.. _built.Borders.Select(border => (border.Run, _cells.CutAt(border.Run, border.Position)))];
        foreach (Run run in runs)
        {
            for (int cut = 0; cut < _cells.CutsOf(run.Index).Length; cut++)
            {
                if (!parted.Contains((run.Index, cut)))
                {
                    LinearExpr cuts = LinearExpr.Sum(ending[(run.Index, cut)].Distinct().Select(i => _chosen[i]));
                    AddAlikeUnless(_parity.Find(_cells.CellOf(run.Index, cut)), _parity.Find(_cells.CellOf(run.Index, cut + 1)), cuts);
                }
            }
        }
    }

    private void AddAlikeUnless((int Root, bool Differs) one, (int Root, bool Differs) other, LinearExpr unless)
    {
        if (one.Root == other.Root)
        {
            if (one.Differs != other.Differs)
            {
                _ = _model.Add(unless >= 1);
            }

            return;
        }

        (BoolVar a, BoolVar b) = (LeftOf(one.Root), LeftOf(other.Root));
        if (one.Differs == other.Differs)
        {
            _ = _model.Add(a - b <= unless);
            _ = _model.Add(b - a <= unless);
        }
        else
        {
            _ = _model.Add(a + b <= 1 + unless);
            _ = _model.Add(a + b + unless >= 1);
        }
    }

    /// <summary>Of the candidates that share a turnout or a piece of track at most one; and no two that come too near each other.</summary>
    private void AddApart()
    {
        foreach (IGrouping<int, int> sharing in _candidates
            .SelectMany(candidate => candidate.Junctions.Select(junction => (junction, candidate.Index)))
            .GroupBy(pair => pair.junction, pair => pair.Index)
            .OrderBy(sharing => sharing.Key))
        {
            AtMostOne(sharing);
        }

        ILookup<int, (RunStretch Stretch, int Candidate)> onRun = _candidates
            .SelectMany(candidate => candidate.Stretches.Select(stretch => (Stretch: stretch, candidate.Index)))
            .ToLookup(pair => pair.Stretch.Run, pair => (pair.Stretch, pair.Index));
        foreach (Run run in _map.Runs)
        {
            ImmutableArray<double> cuts = _cells.CutsOf(run.Index);
            for (int i = 0; i <= cuts.Length && cuts.Length > 0; i++)
            {
                RunStretch cell = new(run.Index, i == 0 ? 0 : cuts[i - 1], i == cuts.Length ? run.Length : cuts[i]);
                AtMostOne(onRun[run.Index].Where(pair => pair.Stretch.Overlaps(cell)).Select(pair => pair.Candidate).Distinct());
            }
        }

        foreach ((int one, int other) in Touching.PairsOf(_candidates))
        {
            _model.AddAtMostOne([_chosen[one], _chosen[other]]);
        }
    }

    private void AtMostOne(IEnumerable<int> candidates)
    {
        BoolVar[] some = [.. candidates.Select(candidate => _chosen[candidate])];
        if (some.Length > 1)
        {
            _model.AddAtMostOne(some);
        }
    }

    /// <summary>Borders that tie want the same polarity; those a train drives between count a swap when they do not.</summary>
    private void AddTies()
    {
        foreach (Candidate candidate in _candidates)
        {
            foreach (BorderPair pair in candidate.Pairs)
            {
                (Border first, Border second) = (candidate.Borders[pair.First], candidate.Borders[pair.Second]);
                (int Root, bool Differs) one = Outside(first), other = Outside(second);
                bool differ = one.Differs ^ other.Differs ^ first.InsideLeft ^ second.InsideLeft;
                if (pair.IsTied(_requiredMetres))
                {
                    AddTie(_chosen[candidate.Index], one.Root, other.Root, differ);
                }
                else
                {
                    AddSwap(_chosen[candidate.Index], (one.Root, other.Root), differ, pair.MainWay);
                }
            }
        }
    }

    private void AddTie(BoolVar chosen, int one, int other, bool differ)
    {
        if (one == other)
        {
            if (differ)
            {
                _ = _model.Add(chosen == 0);
            }

            return;
        }

        (BoolVar a, BoolVar b) = (LeftOf(one), LeftOf(other));
        (differ ? _model.Add(a + b == 1) : _model.Add(a == b)).OnlyEnforceIf(chosen);
    }

    private void AddSwap(BoolVar chosen, (int One, int Other) roots, bool differ, bool mainWay)
    {
        int points = mainWay ? CandidatePenalty.SwapOnMainWay : CandidatePenalty.SwapElsewhere;
        if (roots.One == roots.Other)
        {
            if (differ)
            {
                _swaps.Add((chosen, points));
            }

            return;
        }

        BoolVar swaps = _model.NewBoolVar($"s{_swaps.Count}");
        (BoolVar a, BoolVar b) = (LeftOf(roots.One), LeftOf(roots.Other));
        if (differ)
        {
            _ = _model.Add(swaps >= chosen - a - b);
            _ = _model.Add(swaps >= chosen + a + b - 2);
        }
        else
        {
            _ = _model.Add(swaps >= chosen + a - b - 1);
            _ = _model.Add(swaps >= chosen + b - a - 1);
        }

        _swaps.Add((swaps, points));
    }

    private (int Root, bool Differs) Outside(Border border) =>
        _parity.Find(_cells.CellBeside(border.Spot.Run, border.Spot.Position, before: !border.InsideBefore));

    /// <summary>An existing feeder says which rail carries A there, unless it comes to lie inside a section.</summary>
    private void AddFeeders()
    {
        foreach ((Feeder feeder, RunPlace at) in _built.Feeders)
        {
            (int root, bool differs) = _parity.Find(_cells.CellBeside(at.Run, at.Position, before: true));
            BoolVar wrong = _model.NewBoolVar($"w{_wrongFeeders.Count}");
            LinearExpr inside = LinearExpr.Sum(_candidates
                .Where(candidate => candidate.Stretches.Any(at.Spot.Overlaps))
                .Select(candidate => _chosen[candidate.Index]));
            bool left = RunMap.LeftCarriesA(feeder, at) ^ differs;
            _ = left ? _model.Add(wrong + inside >= 1 - LeftOf(root)) : _model.Add(wrong + inside >= LeftOf(root));
            _wrongFeeders.Add(wrong);
        }
    }

    /// <summary>Every odd cycle found is entered by some section. These rows follow from the rest, and let the bound be proved.</summary>
    private void AddOddCycles(IEnumerable<Block> oddBlocks)
    {
        foreach (ImmutableHashSet<int> cycle in oddBlocks.SelectMany(block => OddCycles.Of(_map, block)))
        {
            _model.AddBoolOr(_candidates
                .Where(candidate => candidate.Borders.Any(border => cycle.Contains(border.Spot.Run)))
                .Select(candidate => _chosen[candidate.Index])
                .Append(_model.FalseLiteral()));
        }
    }

    private ImmutableArray<LinearExpr> Objectives() =>
    [
        LinearExpr.Sum(_wrongFeeders),
        LinearExpr.Sum(_chosen),
        LinearExpr.WeightedSum(_chosen, _candidates.Select(candidate => candidate.ExtraRoads)),
        LinearExpr.WeightedSum(_chosen, _candidates.Select(candidate => candidate.Gaps)),
        LinearExpr.WeightedSum(_chosen, _candidates.Select(candidate => candidate.Penalty))
            + LinearExpr.WeightedSum(_swaps.Select(swap => swap.Swaps), _swaps.Select(swap => swap.Points)),
    ];
}
