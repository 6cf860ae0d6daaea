using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Rails;

namespace WireUp.Documents.Tests;

/// <summary>
/// Fills a layout with as much wiring as a real plan has, one feeder a section and a chain of bus a district, so that papers and
/// drawings can be tried at full size. Only paper: nobody asks whether the railway would run.
/// </summary>
internal static class RoughWiring
{
    private const int Districts = 6;

    public static PlanResult Plan(Layout layout)
    {
        Layout wired = layout with { Wiring = For(layout) };
        ImmutableArray<Proposal> gaps = [.. wired.Wiring.Gaps.Select((gap, i) => new Proposal(
            $"gap-{i + 1}", ProposalKind.Gap, gap.At.ToString()!, "The frog's legs are both fed from beyond: without the gap they meet when the points lie for the other leg.", "gap behind a live frog", 1))];
        return TestPlans.Of(wired) with { Proposals = gaps };
    }

    private static Wiring For(Layout layout)
    {
        Piece.Section[] sections = [.. layout.Track.OfType<Piece.Section>()];
        string[] names = [.. Enumerable.Range(1, Districts).Select(i => $"district-{i}")];
        ILookup<string, (Piece.Section Section, int Number)> members = sections.Index()
            .ToLookup(pair => names[pair.Index * Districts / sections.Length], pair => (pair.Item, pair.Index + 1));
        RailSort rails = new(RailGraph.Build(layout));
        Gap[] cuts = [.. layout.Joints.Where(joint => !rails.Join(joint)).Select(joint => new Gap(new GapPlace.InJoint(joint.First), RailSet.Both))];
        return new()
        {
            Supplies = [new("brick", ElectricPotential.FromVolts(15), false, Power.FromWatts(90), SupplyClass.Limited)],
            Boosters = [new("main", ElectricPotential.FromVolts(14.5), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.15)) { Supply = "brick", Beside = new(sections[0].Id, 0) }],
            Districts = [.. names.Select((name, i) => new District(name, "main", ElectricCurrent.FromAmperes(3), ElectricResistance.FromOhms(0.05)) { Reversing = i == 0 })],
            Buses = [.. names.Select(name => new Bus(name, [.. Runs(members[name].Select(member => member.Number))]))],
            Feeders =
            [
                .. names.SelectMany(name => members[name].Select(member => new Feeder(
                    $"f{member.Number}", new(member.Section.Id, member.Section.Length.Meters / 2), name, $"P{member.Number}", new Wire.Metric(0.5), Length.FromMillimeters(250))
                {
                    Swap = !rails.IsA(member.Section),
                })),
            ],
            Gaps =
            [
                .. cuts,
                .. layout.Track.OfType<Piece.Turnout>().Where(turnout => turnout.Frog == FrogKind.Live)
                    .SelectMany(turnout => turnout.EndNames[1..].Select(leg => new Gap(
                        new GapPlace.InJoint(turnout.End(leg)), leg == turnout.LeftLeg ? RailSet.Right : RailSet.Left))),
            ],
        };
    }

    private static IEnumerable<BusRun> Runs(IEnumerable<int> numbers)
    {
        string from = "main";
        foreach (int number in numbers)
        {
            yield return new(from, $"P{number}", Length.FromMeters(from == "main" ? 3 : 1.1), new Wire.Metric(2.5));
            from = $"P{number}";
        }
    }

    /// <summary>Sorts rails into two kinds and refuses a joint that would bring them together.</summary>
    private sealed class RailSort
    {
        private readonly RailGraph _graph;
        private readonly int[] _parents;
        private readonly Dictionary<int, bool> _isA = [];

        public RailSort(RailGraph graph)
        {
            _graph = graph;
            _parents = [.. Enumerable.Range(0, graph.Nodes.Length)];
            foreach (RailLink link in graph.Links)
            {
                bool touchesFrog = graph.Nodes[link.From] is RailPoint.Inside || graph.Nodes[link.To] is RailPoint.Inside;
                if (link is RailLink.Rail or RailLink.Bond && !touchesFrog) _parents[Find(link.From)] = Find(link.To);
            }
        }

        /// <summary>Joins two ends; false when that would make one rail of two.</summary>
        public bool Join(Joint joint)
        {
            if (_graph.Layout.Track.Any(piece => piece is Piece.Stop && (piece.Id == joint.First.Piece || piece.Id == joint.Second.Piece))) return true;
            (int left, int right) = (Node(joint.First, RailSide.Left), Node(joint.First, RailSide.Right));
            (int otherLeft, int otherRight) = (Node(joint.Second, RailSide.Left), Node(joint.Second, RailSide.Right));
            if (left == otherLeft || right == otherRight) return false;
            _parents[left] = otherRight;
            _parents[right] = otherLeft;
            return true;
        }

        /// <summary>Whether the section's left rail is of the first kind.</summary>
        public bool IsA(Piece.Section section)
        {
            (int left, int right) = (Node(section.End("b"), RailSide.Left), Node(section.End("b"), RailSide.Right));
            if (!_isA.ContainsKey(left)) (_isA[left], _isA[right]) = (true, false);
            return _isA[left];
        }

        private int Node(TrackEnd end, RailSide side) => Find(_graph.NodeAt(new(end, side)));

        private int Find(int node)
        {
            while (_parents[node] != node) node = _parents[node];
            return node;
        }
    }
}
