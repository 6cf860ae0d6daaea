using WireUp.Circuits.Network;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Circuits.Numerics;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>What-ifs on layouts against the same layout changed and solved afresh.</summary>
public sealed class WhatIfTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 40)];

    public static TheoryData<string> Samples => SampleFiles.Names;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_element_of_a_random_layout_opened_by_itself(int seed)
    {
        (Layout layout, PowerOptions options) = seed % 2 == 0 ? RandomPlans.Make(seed) : RandomTrackwork.Make(seed);
        OpenEach(new Case(layout, options), every: 1);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Elements_of_a_sample_opened_by_themselves(string file)
    {
        Layout layout = SampleFiles.Wired(file);
        Case tested = new(layout, new() { Loads = [.. Middles(layout).Take(3).Select(at => new PlacedLoad(at, UnitsNet.ElectricCurrent.FromAmperes(0.3)))] });
        OpenEach(tested, every: 1 + (tested.Model.Circuit.Elements.Length / 60));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Random_changes_together(int seed)
    {
        (Layout layout, PowerOptions options) = seed % 2 == 0 ? RandomPlans.Make(seed) : RandomTrackwork.Make(seed);
        Case tested = new(layout, options);
        Random random = new(seed);
        WhatIfWorkspace whatIf = new(tested.Model, tested.Places, 4);
        double[] now = new double[tested.Model.Unknowns.Count];
        int solved = 0;
        for (int round = 0; round < 25; round++)
        {
            ElementChange[] changes = [.. tested.Draw(random)];
            WhatIfOutcome outcome = whatIf.Change(changes);
            if (outcome != WhatIfOutcome.NeedsNewModel)
            {
                Fresh fresh = tested.Solve(changes);
                tested.Compare(fresh, whatIf.IsFed, whatIf.Volts, whatIf.Ohms);
                whatIf.Potentials(tested.Potentials, now);
                tested.CompareVolts(fresh, now);
                solved++;
            }
        }

        Assert.True(solved > 5);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Effective_resistance_of_an_element_is_what_the_way_round_leaves_of_it(string file)
    {
        Case tested = new(SampleFiles.Wired(file), PowerOptions.Default);
        NodalModel model = tested.Model;
        model.SelectInverse();
        int compared = 0;
        for (int i = 0; i < model.Circuit.Elements.Length; i += 1 + (model.Circuit.Elements.Length / 80))
        {
            CircuitElement element = model.Circuit.Elements[i];
            (int from, int to) = (model.Unknowns.Of(element.From), model.Unknowns.Of(element.To));
            if (element.Ohms > 0 && from != to && from != Unknowns.Unfed)
            {
                double effective = model.Inverse(element.From, element.From) + model.Inverse(element.To, element.To) - (2 * model.Inverse(element.From, element.To));
                double round = tested.Places.Bridges.Beyond(from, to) == BridgeTree.None ? RoundWithout(tested, i) : double.PositiveInfinity;
                Assert.Equal(1 / ((1 / element.Ohms) + (1 / round)), effective, 1e-9 * element.Ohms);
                compared++;
            }
        }

        Assert.True(compared > 3);
    }

    [Fact]
    public void Nothing_is_allocated()
    {
        Case tested = new(SampleFiles.Wired("tarrow-valley.layout.yaml"), PowerOptions.Default);
        PreparedWhatIfWorkspace prepared = new(tested.Model, tested.Places);
        WhatIfWorkspace general = new(tested.Model, tested.Places, 2);
        int joint = tested.Joints().First(joint => prepared.Open(joint) == WhatIfOutcome.Solved);
        ElementChange[] change = [ElementChange.Open(joint)];
        general.Change(change);
        long before = GC.GetAllocatedBytesForCurrentThread();
        prepared.Open(joint);
        general.Change(change);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    private static void OpenEach(Case tested, int every)
    {
        PreparedWhatIfWorkspace prepared = new(tested.Model, tested.Places);
        WhatIfWorkspace general = new(tested.Model, tested.Places, 1);
        int compared = 0;
        for (int i = 0; i < tested.Model.Circuit.Elements.Length; i += every)
        {
            WhatIfOutcome outcome = prepared.Open(i);
            Assert.Equal(general.Change([ElementChange.Open(i)]), outcome);
            if (outcome != WhatIfOutcome.NeedsNewModel)
            {
                Fresh fresh = tested.Solve([ElementChange.Open(i)]);
                tested.Compare(fresh, general.IsFed, general.Volts, general.Ohms);
                tested.Compare(fresh, p => double.IsFinite(prepared.Ohms[p]), p => prepared.Volts[p], p => prepared.Ohms[p]);
                compared++;
            }
        }

        Assert.True(compared > 3);
    }

    /// <summary>Resistance between the ends of an element that is gone.</summary>
    private static double RoundWithout(Case tested, int element)
    {
        NodalModel model = tested.Solve([ElementChange.Open(element)]).Model;
        (HalfSolveWorkspace solver, HalfSolution half) = (new(model.Factor), new());
        CircuitElement gone = tested.Model.Circuit.Elements[element];
        solver.Solve(model.Unknowns.Of(gone.From), model.Unknowns.Of(gone.To), half);
        return solver.Between(half, half);
    }

    private static IEnumerable<TrackPlace> Middles(Layout layout) =>
        layout.Track.OfType<Piece.Section>().Select(section => new TrackPlace(section.Id, section.Length.Meters / 2));

    private sealed record Fresh(NodalModel Model, double[] Potentials);

    private sealed class Case
    {
        private readonly AskedPlace[] _places;

        internal Case(Layout layout, PowerOptions options)
        {
            PowerOptions asked = options with { Probes = [.. options.Probes.Concat(Middles(layout)).Distinct().Take(8)] };
            RailGraph graph = RailGraph.Build(layout, asked.Places);
            Model = NodalModel.Of(CircuitBuilder.Build(graph, options.Turnouts));
            TrackSurvey survey = new(Model, Model.Potentials([]));
            PlacedCase placed = new(Model, survey, asked);
            Potentials = placed.Potentials;
            _places =
            [
                .. placed.Loads.Select(load => new AskedPlace(load.From, load.To, load.Amps)),
                .. asked.Probes.Select(graph.StationAt).Select(station => new AskedPlace(station.FirstTowardsB, station.SecondTowardsB)),
            ];
            Places = new AskedPlaces(Model, Potentials, _places);
        }

        internal NodalModel Model { get; }

        internal double[] Potentials { get; }

        internal AskedPlaces Places { get; }

        internal IEnumerable<int> Joints() =>
            Enumerable.Range(0, Model.Circuit.Elements.Length).Where(i => Model.Circuit.Elements[i] is { Kind: ElementKind.Joint, Ohms: > 0 });

        internal IEnumerable<ElementChange> Draw(Random random)
        {
            foreach (int element in Enumerable.Range(0, Model.Circuit.Elements.Length).OrderBy(_ => random.Next()).Take(random.Next(1, 4)))
            {
                yield return random.Next(4) == 0 ? ElementChange.Set(element, random.NextDouble()) : ElementChange.Open(element);
            }

            if (random.Next(3) == 0)
            {
                AskedPlace place = _places[random.Next(_places.Length)];
                yield return ElementChange.Add(place.First, place.Second, random.Next(2) * 0.5);
            }
        }

        /// <summary>The circuit with the changes in it. Opened elements lead nowhere.</summary>
        internal Fresh Solve(ElementChange[] changes)
        {
            List<CircuitElement> elements = [.. Model.Circuit.Elements];
            foreach (ElementChange change in changes)
            {
                if (change.Element < 0)
                {
                    elements.Add(new(change.First, change.Second, change.Ohms, ElementKind.Joint));
                }
                else
                {
                    CircuitElement old = elements[change.Element];
                    elements[change.Element] = double.IsFinite(change.Ohms) ? old with { Ohms = change.Ohms } : old with { To = old.From, Ohms = 1 };
                }
            }

            NodalModel model = NodalModel.Of(Model.Circuit.With([.. elements]));
            model.SelectInverse();
            return new(model, model.Potentials(_places.Where(place => place.Amps != 0 && model.Unknowns.AreFedTogether(place.First, place.Second))
                .Select(place => new NodeLoad(place.First, place.Second, place.Amps))));
        }

        internal void Compare(Fresh fresh, Func<int, bool> isFed, Func<int, double> volts, Func<int, double> ohms)
        {
            for (int p = 0; p < _places.Length; p++)
            {
                (int first, int second) = (_places[p].First, _places[p].Second);
                Assert.Equal(fresh.Model.Unknowns.AreFedTogether(first, second), isFed(p));
                if (isFed(p))
                {
                    Assert.Equal(Between(fresh, first, second), volts(p), 1e-8);
                    double expected = fresh.Model.Inverse(first, first) + fresh.Model.Inverse(second, second) - (2 * fresh.Model.Inverse(first, second));
                    Assert.Equal(expected, ohms(p), 1e-8 * (1 + expected));
                }
            }
        }

        internal void CompareVolts(Fresh fresh, double[] now)
        {
            foreach (AskedPlace place in _places.Where(place => fresh.Model.Unknowns.AreFedTogether(place.First, place.Second)))
            {
                double volts = Model.PotentialOf(place.First, now) - Model.PotentialOf(place.Second, now);
                Assert.Equal(Between(fresh, place.First, place.Second), volts, 1e-8);
            }
        }

        private static double Between(Fresh fresh, int first, int second) =>
            fresh.Model.PotentialOf(first, fresh.Potentials) - fresh.Model.PotentialOf(second, fresh.Potentials);
    }
}
