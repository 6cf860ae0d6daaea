using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// The engine's questions answered by trying everything: each owner of positions is put in each of them, or in none of them as while it moves,
/// and every rail is walked along as far as metal goes. Rails are named in the frame of <see cref="ToeFrame"/>. Shares with the engine
/// only the layout.
/// </summary>
internal sealed class WalkOracle
{
    private readonly Layout _layout;
    private readonly bool _threeRail;
    private readonly Dictionary<string, int> _numbers = [];
    private readonly List<(int From, int To)> _always = [];
    private readonly List<(int From, int To, PieceId Owner, string Position)> _sometimes = [];
    private readonly List<(string Feeder, string District, char Leg, int Node)> _wires = [];
    private readonly Dictionary<PieceId, Piece> _pieces;
    private readonly int[] _still;

    public WalkOracle(Layout layout)
    {
        _layout = layout;
        _threeRail = layout.Control == ControlSystem.ThreeRail;
        _pieces = layout.Track.ToDictionary(piece => piece.Id);
        foreach (Piece piece in layout.Track)
        {
            foreach (ToeFrame.Touch touch in ToeFrame.Of(piece, _threeRail))
            {
                Touch(Name(piece, touch.From), Name(piece, touch.To), piece.Id, touch.Positions);
            }

            AddRuns(piece);
        }

        layout.Joints.ToList().ForEach(AddJoint);
        layout.Wiring.Feeders.ToList().ForEach(AddFeeder);
        Owners =
        [
            .. layout.Track.Select(piece => (piece.Id, ToeFrame.PositionsOf(piece))).Where(owner => owner.Item2.Length > 0),
            .. layout.Wiring.Switches.Select(item => (item.Name, item.Positions.ToArray())),
        ];
        Owners.RemoveAll(owner => _sometimes.TrueForAll(touch => touch.Owner != owner.Id));
        _still = new int[_numbers.Count];
        for (int i = 0; i < _still.Length; i++)
        {
            _still[i] = i;
        }

        _always.ForEach(touch => Join(_still, touch.From, touch.To));
    }

    /// <summary>Everything whose position matters, with its positions and moments.</summary>
    public List<(PieceId Id, string[] Positions)> Owners { get; }

    /// <summary>Every way in which some of the owners stand in a position and the others in none, few first.</summary>
    public IEnumerable<Dictionary<PieceId, string>> AllStands()
    {
        List<Dictionary<PieceId, string>> stands = [[]];
        foreach ((PieceId owner, string[] positions) in Owners)
        {
            stands.AddRange([.. stands.SelectMany(stand => positions.Select(position => new Dictionary<PieceId, string>(stand) { [owner] = position }))]);
        }

        return stands.OrderBy(stand => stand.Count);
    }

    /// <summary>Where everything stands in those positions: what is one piece of metal.</summary>
    public Walk In(IReadOnlyDictionary<PieceId, string> stand)
    {
        int[] metal = [.. _still];
        foreach ((int from, int to, PieceId owner, string position) in _sometimes)
        {
            if (stand.TryGetValue(owner, out string? at) && at == position)
            {
                Join(metal, from, to);
            }
        }

        return new(this, metal);
    }

    /// <summary>The name of a rail at an end, from the side as seen looking out of the end.</summary>
    public string RailAt(TrackEnd end, RailSide side) => $"{end.Piece}:{end.Name} {Framed(end, side is RailSide.Left or RailSide.Centre)}";

    /// <summary>The name of a rail of a section or bridge at a place, on the side of its end b.</summary>
    public string RailWithin(PieceId piece, double metres, bool first)
    {
        string rail = first ? "L" : "R";
        int cuts = Cuts(piece, rail).Count(cut => cut <= metres + 1e-9);
        return Run(piece, rail, cuts);
    }

    private static void Join(int[] metal, int one, int other) => metal[Find(metal, one)] = Find(metal, other);

    private static int Find(int[] metal, int member)
    {
        while (metal[member] != member)
        {
            member = metal[member] = metal[metal[member]];
        }

        return member;
    }

    private int Number(string name) => _numbers.TryGetValue(name, out int number) ? number : _numbers[name] = _numbers.Count;

    private void Touch(string from, string to, PieceId owner, params string[] positions)
    {
        if (positions.Length == 0)
        {
            _always.Add((Number(from), Number(to)));
        }

        foreach (string position in positions)
        {
            _sometimes.Add((Number(from), Number(to), owner, position));
        }
    }

    private void Touch(string from, string to, Setting? when) => Touch(from, to, when?.Owner ?? default, when is { } set ? [set.Position] : []);

    private string Name(Piece piece, string local) => $"{piece.Id}:{local}";

    private static string Run(PieceId piece, string rail, int afterCuts) => $"{piece}@{afterCuts} {rail}";

    /// <summary>Seen looking out of a toe end, left is what is right in the frame; three-rail track has no left and right.</summary>
    private string Framed(TrackEnd end, bool first) => first == (!_threeRail && ToeFrame.IsToe(_pieces[end.Piece], end.Name)) ? "R" : "L";

    private List<double> Cuts(PieceId piece, string rail) =>
    [
        .. _layout.Wiring.Gaps.Where(gap => gap.At is GapPlace.InSection within && within.Place.Section == piece && gap.Rails.HasFlag(rail == "L" ? RailSet.Left : RailSet.Right))
            .Select(gap => ((GapPlace.InSection)gap.At).Place.MetresFromA).Distinct().Order(),
    ];

    /// <summary>The lengths of rail between the cuts of a section or bridge.</summary>
    private void AddRuns(Piece piece)
    {
        (string first, string last) = piece is Piece.Section ? ("a", "b") : ("head", "tail");
        foreach (string rail in piece is Piece.Section or Piece.Turntable or Piece.TransferTable ? new[] { "L", "R" } : [])
        {
            List<double> cuts = Cuts(piece.Id, rail);
            Touch(Name(piece, $"{first} {rail}"), Run(piece.Id, rail, 0), null);
            Touch(Name(piece, $"{last} {rail}"), Run(piece.Id, rail, cuts.Count), null);
            for (int cut = 0; cut < cuts.Count; cut++)
            {
                foreach (Gap gap in GapsAt(piece.Id, cuts[cut], rail).Where(gap => gap.BridgedWhen is not null))
                {
                    Touch(Run(piece.Id, rail, cut), Run(piece.Id, rail, cut + 1), gap.BridgedWhen);
                }
            }
        }
    }

    private IEnumerable<Gap> GapsAt(PieceId piece, double metres, string rail) => _layout.Wiring.Gaps.Where(gap =>
        gap.At is GapPlace.InSection within && within.Place.Section == piece && within.Place.MetresFromA == metres
        && gap.Rails.HasFlag(rail == "L" ? RailSet.Left : RailSet.Right));

    /// <summary>Ends of different kind, toe and heel, agree about left and right; ends of one kind do not.</summary>
    private void AddJoint(Joint joint)
    {
        bool differ = ToeFrame.IsToe(_pieces[joint.First.Piece], joint.First.Name) != ToeFrame.IsToe(_pieces[joint.Second.Piece], joint.Second.Name);
        PieceId[] lifted = [.. new[] { joint.First, joint.Second }.Select(end => end.Piece).Where(piece => _pieces[piece] is Piece.Section { LiftOut: true })];
        foreach (string rail in new[] { "L", "R" })
        {
            string across = differ || _threeRail ? rail : rail == "L" ? "R" : "L";
            (string from, string to) = ($"{joint.First.Piece}:{joint.First.Name} {rail}", $"{joint.Second.Piece}:{joint.Second.Name} {across}");
            Gap[] gaps = [.. GapsIn(joint.First, rail), .. GapsIn(joint.Second, across)];
            bool open = gaps.Length > 0 || Holds(joint.Insulated, joint.First, rail);
            if (!open)
            {
                string between = $"{from} - {to}";
                Touch(from, between, lifted.FirstOrDefault(), lifted.Length > 0 ? ["in"] : []);
                Touch(between, to, lifted.LastOrDefault(), lifted.Length > 0 ? ["in"] : []);
            }

            foreach (Gap gap in gaps.Where(gap => gap.BridgedWhen is not null))
            {
                Touch(from, to, gap.BridgedWhen);
            }
        }
    }

    private IEnumerable<Gap> GapsIn(TrackEnd end, string rail) =>
        _layout.Wiring.Gaps.Where(gap => gap.At is GapPlace.InJoint at && at.End == end && Holds(gap.Rails, end, rail));

    private bool Holds(RailSet rails, TrackEnd end, string rail) =>
        (rails.HasFlag(RailSet.Left) && Framed(end, first: true) == rail) || (rails.HasFlag(RailSet.Right) && Framed(end, first: false) == rail);

    private void AddFeeder(Feeder feeder)
    {
        bool ring = !_threeRail && _pieces[feeder.At.Section] is Piece.Turntable { Feed: BridgeFeed.SplitRing };
        foreach (char leg in "AB")
        {
            bool first = (leg == 'A') != feeder.Swap;
            string rail = ring ? $"{feeder.At.Section}:ring {(first ? "L" : "R")}" : RailWithin(feeder.At.Section, feeder.At.MetresFromA, first);
            string wire = $"{feeder.Name}/{leg}";
            _wires.Add((feeder.Name, feeder.District, leg, Number(wire)));
            Touch(wire, rail, feeder.When);
        }
    }

    /// <summary>What is one piece of metal where everything stands in some way.</summary>
    internal sealed class Walk(WalkOracle oracle, int[] metal)
    {
        /// <summary>Whether one can walk from one rail or wire to another.</summary>
        public bool Meets(string from, string to) => Find(metal, oracle._numbers[from]) == Find(metal, oracle._numbers[to]);

        /// <summary>Whether a wire A touches a wire B.</summary>
        public bool IsShort() => oracle._wires.Any(one => one.Leg == 'A' && oracle._wires.Any(other => other.Leg == 'B' && Find(metal, one.Node) == Find(metal, other.Node)));

        /// <summary>Whether any wire reaches a rail.</summary>
        public bool IsFed(string rail) => HasWire(rail, 'A') || HasWire(rail, 'B');

        /// <summary>Whether leg A comes to one of the two rails and leg B to the other, be it through a short.</summary>
        public bool HasBothLegs(string left, string right) => (HasWire(left, 'A') && HasWire(right, 'B')) || (HasWire(left, 'B') && HasWire(right, 'A'));

        /// <summary>Whether a train finds current on the two rails: leg A and nothing else on one of them, leg B on the other.</summary>
        public bool IsLive(string left, string right) => HasBothLegs(left, right) && !(HasWire(left, 'A') && HasWire(left, 'B')) && !(HasWire(right, 'A') && HasWire(right, 'B'));

        private bool HasWire(string rail, char leg)
        {
            int root = Find(metal, oracle._numbers[rail]);
            return oracle._wires.Exists(wire => wire.Leg == leg && Find(metal, wire.Node) == root);
        }

        /// <summary>The districts and legs that reach a rail, as <c>d/A</c>.</summary>
        public SortedSet<string> Legs(string rail) =>
        [
            .. oracle._numbers.TryGetValue(rail, out int node)
                ? oracle._wires.Where(wire => Find(metal, wire.Node) == Find(metal, node)).Select(wire => $"{wire.District}/{wire.Leg}")
                : [],
        ];
    }
}
