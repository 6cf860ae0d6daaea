using System.Collections.Immutable;
using UnitsNet;
using WireUp.Checking;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Changes.Exact;

/// <summary>What is to be done from one layout to another, on paper.</summary>
public sealed class ChangeListTests
{
    private static readonly Layout Bare = TestLayouts.Balloon with { Wiring = Wiring.None };

    /// <summary>The balloon with feeder f3 moved, f1 taken away, a new turnout contact and a gap less.</summary>
    private static readonly Layout Altered = TestLayouts.Balloon with
    {
        Track = [.. TestLayouts.Balloon.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { Frog = FrogKind.Isolated, Feed = FrogFeed.Contact } : piece)],
        Wiring = TestLayouts.Balloon.Wiring with
        {
            Feeders = [.. TestLayouts.Balloon.Wiring.Feeders.Where(feeder => feeder.Name != "f1")
                .Select(feeder => feeder.Name == "f3" ? feeder with { At = new(feeder.At.Section, 2.5) } : feeder)],
            Gaps = TestLayouts.Balloon.Wiring.Gaps[..1],
        },
    };

    [Fact]
    public void Only_what_is_not_there_yet_is_to_be_laid_and_cut()
    {
        Layout half = TestLayouts.Balloon with { Wiring = TestLayouts.Balloon.Wiring with { Feeders = TestLayouts.Balloon.Wiring.Feeders[..2] } };
        ChangeList changes = ChangeList.Of(half, TestLayouts.Balloon);
        Assert.Equal(["f3/A", "f3/B"], changes.NewWires.Wires.Select(wire => wire.Id));

        // 300 mm, 5 % slack and 30 mm for each end make 375 mm, rounded up to 380 mm.
        Assert.Equal(Length.FromMillimeters(760).Millimeters, changes.NewWires.TotalToCut.Millimeters, 6);
        string csv = changes.NewWires.ToCsv();
        Assert.Equal(3, csv.TrimEnd('\n').Split('\n').Length);
    }

    [Fact]
    public void Contacts_are_told_of_too()
    {
        Change contact = Assert.Single(ChangeList.Of(TestLayouts.Balloon, Altered).Changes, change => change.Part == "contact");
        Assert.Equal(("N", "T1/frog", "wire"), (contact.Sign, contact.Name, contact.Work));
        Assert.Contains("diverging", contact.Details, StringComparison.Ordinal);
    }

    [Fact]
    public void What_goes_is_drawn_on_the_old_plan_and_what_comes_on_the_new_one_each_with_its_letter()
    {
        Scene scene = Draw(TestLayouts.Balloon, Altered);
        string[] texts = [.. scene.Texts.Select(text => text.Content)];
        Assert.Contains("T f1", texts);
        Assert.Equal(2, texts.Count(text => text == "M f3"));
        Assert.Contains("M T1", texts);
        Assert.DoesNotContain(texts, text => text.EndsWith(" f2", StringComparison.Ordinal));
        Assert.Equal(DashKind.Short, Ring(scene, "f1").Style.Dash);
        Assert.Equal(DashKind.Dotted, Ring(scene, "f3").Style.Dash);
    }

    [Fact]
    public void Where_nothing_goes_only_the_new_plan_is_drawn()
    {
        Scene scene = Draw(Bare, TestLayouts.Balloon);
        Assert.DoesNotContain(scene.Texts, text => text.Content.StartsWith("As it was", StringComparison.Ordinal));
        Assert.All(["N f1", "N f2", "N f3", "N main"], label => Assert.Contains(scene.Texts, text => text.Content == label));
        Assert.Equal(DashKind.Solid, Ring(scene, "f1").Style.Dash);
    }

    [Fact]
    public void No_label_of_the_drawing_covers_another_or_a_rail()
    {
        foreach (Scene scene in new[] { Draw(TestLayouts.Balloon, Altered), Draw(Bare, TestLayouts.Balloon), Draw(TestLayouts.Crossover, TestLayouts.Crossover with { Track = TestLayouts.Crossover.Track[1..], Joints = TestLayouts.Crossover.Joints[1..] }) })
        {
            Assert.Empty(SceneMeasures.TextsOnTexts(scene));
            Assert.Empty(SceneMeasures.TextsOnRails(scene));
            Assert.Empty(SceneMeasures.TextsOutside(scene, scene.Bounds));
        }
    }

    [Fact]
    public void The_papers_hold_the_changes_the_drawing_and_only_new_wires_and_are_the_same_every_time()
    {
        Layout half = TestLayouts.Balloon with { Wiring = TestLayouts.Balloon.Wiring with { Feeders = TestLayouts.Balloon.Wiring.Feeders[..2] } };
        ChangeList changes = ChangeList.Of(half, TestLayouts.Balloon);
        CheckReport check = Checker.Check(TestLayouts.Balloon, TestContext.Current.CancellationToken);
        byte[] pdf = ChangeBook.Compose(changes, check, new(), TestContext.Current.CancellationToken);
        Assert.Equal(pdf, ChangeBook.Compose(ChangeList.Of(half, TestLayouts.Balloon), check, new(), TestContext.Current.CancellationToken));
        string text = string.Join('\n', TestBook.Read(pdf));
        Assert.Contains("What changes", text, StringComparison.Ordinal);
        Assert.Contains("f3/A", text, StringComparison.Ordinal);
        Assert.DoesNotContain("f1/A", text, StringComparison.Ordinal);
        ImmutableArray<Scene> pages = ChangeBook.Pages(changes, check, new(), TestContext.Current.CancellationToken);
        Assert.All(pages, page => Assert.Empty(SceneMeasures.TextsOutside(page, page.Bounds)));
    }

    [Fact]
    public void The_same_layout_twice_changes_nothing()
    {
        ChangeList changes = ChangeList.Of(TestLayouts.Balloon, TestLayouts.Balloon);
        Assert.Empty(changes.Changes);
        CheckReport check = Checker.Check(TestLayouts.Balloon, TestContext.Current.CancellationToken);
        Assert.Single(ChangeBook.Pages(changes, check, new(), TestContext.Current.CancellationToken));
    }

    private static Scene Draw(Layout before, Layout after) =>
        ChangeDrawing.Draw(ChangeList.Of(before, after), cancellation: TestContext.Current.CancellationToken);

    private static Shape.Circle Ring(Scene scene, string id) =>
        scene.Shapes.OfType<Shape.Circle>().First(circle => circle.Layer == "changes" && circle.Id == id);

    [Fact]
    public void On_the_paper_of_the_book_no_name_covers_another_where_much_changes()
    {
        Layout after = TestLayouts.Sample("tarrow-valley-as-built");
        ChangeList changes = ChangeList.Of(after with { Wiring = Wiring.None }, after);
        Scene page = ChangeBook.Pages(changes, Checker.Check(after, TestContext.Current.CancellationToken), new(), TestContext.Current.CancellationToken)
            .Single(page => page.Title.EndsWith(", on the plan", StringComparison.Ordinal));
        Assert.Empty(SceneMeasures.TextsOnTexts(page));
        Assert.Contains(page.Texts, text => text.Content.StartsWith("Names without room", StringComparison.Ordinal));
        Assert.True(page.Texts.Count(text => text.Content.StartsWith("N f", StringComparison.Ordinal)) > 40);
    }
}
