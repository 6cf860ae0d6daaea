using System.Collections.Concurrent;
using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Circuits.Sessions;
using WireUp.Documents;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Rails;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>The one place where the page asks the rooms: everything in the background, stopped when nobody waits, kept for the version it belongs to.</summary>
internal sealed class LayoutDesk(ILayoutFolder folder, SharedWork work)
{
    private readonly ConcurrentDictionary<LayoutName, (Layout Of, PlanGeometry Geometry)> _geometries = new();

    /// <summary>Reads a layout; one with problems in its text is opened too.</summary>
    public async Task<Opening> OpenAsync(LayoutName name, CancellationToken cancel) => folder.Read(name, FileRole.Layout) switch
    {
        StoredFile.Found found => new(await ReadAsync(name, found, cancel), null),
        StoredFile.Missing => new(null, $"There is no layout '{name}' in the folder."),
        StoredFile.Unreadable unreadable => new(null, unreadable.Reason),
        _ => throw new InvalidOperationException("not an outcome of reading"),
    };

    /// <summary>Takes what was read already of a version, so that it is not read again.</summary>
    public Task KnowAsync(LayoutName name, string version, LayoutDocument document, CancellationToken cancel) =>
        work.GetAsync(version, Reading(name), (_, _) => new OpenLayout(name, version, document), null, cancel);

    /// <summary>What is wrong with a text, without keeping it.</summary>
    public static Task<ImmutableArray<LayoutProblem>> ProblemsAsync(LayoutName name, string text, CancellationToken cancel) =>
        Task.Run(() => LayoutFile.Read(text, name.FileName).Problems, cancel);

    public Task<CheckReport> CheckAsync(OpenLayout open, CancellationToken cancel) =>
        work.GetAsync(open.Version, "check", (_, stop) => Checker.Check(open.Layout!, stop), null, cancel);

    public PlanResult? Planned(OpenLayout open) => work.Done<PlanResult>(open.Version, "plan");

    /// <summary>Plans. A plan that was stopped is not kept, so that nobody takes it for a finished one.</summary>
    public Task<PlanResult> PlanAsync(OpenLayout open, IProgress<string> watch, CancellationToken cancel) => work.GetAsync(
        open.Version,
        "plan",
        (progress, stop) =>
        {
            PlanResult plan = Planner.Plan(open.Layout!, PlanOptions.Default, new PlanWatch(progress), stop);
            stop.ThrowIfCancellationRequested();
            return plan;
        },
        watch,
        cancel);

    /// <summary>The wiring book, as a PDF file: of what is built and, where a plan was made or has to be, of what it proposes.</summary>
    public async Task<byte[]> BookAsync(OpenLayout open, CancellationToken cancel)
    {
        PlanResult plan = await PlanAsync(open, new Progress<string>(), cancel);
        return await work.GetAsync(open.Version, "book", (_, stop) => WiringBook.Compose(plan, new BookOptions(), stop), null, cancel);
    }

    public async Task<ScreenPlan> DrawAsync(OpenLayout open, PlanLook look, CancellationToken cancel)
    {
        PlanResult? plan = look.WithProposals ? Planned(open) : null;
        PlanGeometry geometry = await work.GetAsync(open.Version, "geometry", (_, stop) => GeometryOf(open, stop), null, cancel);
        DrawingOptions options = new()
        {
            View = look.From,
            Figure = look.Figure,
            Geometry = geometry,
            Proposals = plan?.Proposals ?? [],
            Before = plan?.Before,
        };
        return await work.GetAsync(
            open.Version, (look with { WithProposals = plan is not null }).Name, (_, stop) => ScreenPlan.Draw(plan?.After ?? open.Layout!, options, stop), null, cancel);
    }

    public static Task<LoadAnswer> LoadAsync(OpenLayout open, LoadQuestion question, CancellationToken cancel) =>
        Task.Run(() => LoadAnswer.Of(open.Layout!, question, cancel), cancel);

    /// <summary>Lets trains run at random. Sessions that were stopped are not kept.</summary>
    public Task<SessionAnswer> SessionAsync(OpenLayout open, IProgress<string> watch, CancellationToken cancel) => work.GetAsync(
        open.Version,
        "sessions",
        (progress, stop) =>
        {
            SessionAnswer answer = SessionAnalysis.Run(RailGraph.Build(open.Layout!), new(), new SessionWatch(progress), stop);
            stop.ThrowIfCancellationRequested();
            return answer;
        },
        watch,
        cancel);

    /// <summary>Adds proposals to the file, its comments and order kept, as <c>plan --write</c> does, joined with what others saved meanwhile.</summary>
    /// <param name="open">The layout as it was planned.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="ids">The proposals; all of them where null.</param>
    public EditOutcome Accept(OpenLayout open, PlanResult plan, IReadOnlyCollection<string>? ids)
    {
        try
        {
            Layout after = ids is null ? plan.After : PlanPart.Of(plan, ids);
            return folder.SaveEdit(open.Name, (open.Document.Text, open.Version), open.Document.WithAdded(after).Text);
        }
        catch (ArgumentException misfit)
        {
            return new EditOutcome.Refused(misfit.Message);
        }
    }

    /// <summary>Saves a text, joined with what others saved since it was seen; one with problems is saved too, so that nothing typed is lost.</summary>
    public EditOutcome Save(LayoutName name, (string Text, string Version) seen, string text) => folder.SaveEdit(name, seen, text);

    // Where track lies depends on the track alone: it stays where only the wiring was changed.
    private PlanGeometry GeometryOf(OpenLayout open, CancellationToken stop)
    {
        Layout now = open.Layout!;
        if (_geometries.TryGetValue(open.Name, out (Layout Of, PlanGeometry Geometry) last) && last.Geometry.Automatic
            && last.Of.Track.SequenceEqual(now.Track) && last.Of.Joints.Select(joint => (joint.First, joint.Second)).SequenceEqual(now.Joints.Select(joint => (joint.First, joint.Second))))
        {
            return last.Geometry;
        }

        PlanGeometry geometry = PlanGeometry.Of(now, stop);
        _geometries[open.Name] = (now, geometry);
        return geometry;
    }

    private Task<OpenLayout> ReadAsync(LayoutName name, StoredFile.Found found, CancellationToken cancel) => work.GetAsync(
        found.Version, Reading(name), (_, _) => new OpenLayout(name, found.Version, Read(found.Text, name)), null, cancel);

    private static string Reading(LayoutName name) => $"reading {name}";

    // What reads lazily is read here, in the background.
    private static LayoutDocument Read(string text, LayoutName name)
    {
        LayoutDocument document = LayoutDocument.Open(text, name.FileName);
        _ = document.Reading;
        return document;
    }

    private sealed class PlanWatch(IProgress<string> watch) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) => watch.Report($"{value.Stage} ({value.Percent} %)");
    }

    private sealed class SessionWatch(IProgress<string> watch) : IProgress<SessionProgress>
    {
        public void Report(SessionProgress value) => watch.Report($"{value.Sessions} of at most {value.AtMost} sessions");
    }
}
